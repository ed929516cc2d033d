// One question of a row of them, answered in the quick input.
import { Disposable, l10n, type QuickInput, QuickInputButtons, type QuickPickItem, window } from "vscode";

/** Where the question stands among the others. */
export interface QuestionStep {
  readonly title: string;
  readonly step: number;
  readonly of: number;
  /** A button leads back to the question before. */
  readonly back: boolean;
}

/** An answer, the wish to go one question back, or the wish to leave it all. */
export type QuestionAnswer<T> = { readonly value: T } | "back" | "cancelled";

export interface QuestionItem extends QuickPickItem {
  readonly value?: string;
}

/** A line of text; an empty one skips the question. */
export function askText(
  step: QuestionStep,
  { prompt, value }: { readonly prompt: string; readonly value: string },
): Promise<QuestionAnswer<string>> {
  const input = window.createInputBox();
  input.prompt = prompt;
  input.value = value;
  return answer(input, step, (answered) => [input.onDidAccept(() => answered(input.value))]);
}

export interface Picking {
  readonly placeholder: string;
  readonly items: readonly QuestionItem[];
  /** Values picked before. */
  readonly picked: readonly string[];
  /** What is typed may be taken as it is; `undefined` where only what is listed counts. */
  readonly own?: string;
  /** What is typed comes behind everything in the list that it is a part of. */
  readonly ownLast?: true;
}

/**
 * One of a list, or one's own words where those are allowed. The first of the list is what Enter alone takes: it has to
 * be the one that states nothing.
 */
export function askOne(
  step: QuestionStep,
  { placeholder, items, picked, own, ownLast }: Picking,
): Promise<QuestionAnswer<QuestionItem>> {
  const pick = window.createQuickPick<QuestionItem>();
  pick.placeholder = placeholder;
  pick.matchOnDescription = true;
  pick.items = items;
  const before = items.filter(({ value }) => value !== undefined && picked.includes(value));
  // Set to none, no item would be under the cursor and Enter would do nothing.
  if (before.length > 0) pick.activeItems = before;
  return answer(pick, step, (answered) => [
    pick.onDidChangeValue((text) => {
      if (own === undefined) return;
      const typed = ownWords(text, items, own);
      // The editor puts those first whose label is what was typed, wherever they stand.
      pick.items = ownLast
        ? [...items, ...typed.map((item) => ({ ...item, label: own, description: item.label }))]
        : [...typed, ...items];
    }),
    pick.onDidAccept(() => {
      const [chosen] = pick.selectedItems;
      if (chosen) answered(chosen);
    }),
  ]);
}

/** What is typed as an item, where the list has nothing of that name. */
function ownWords(text: string, items: readonly QuestionItem[], own: string): QuestionItem[] {
  const typed = text.trim();
  const same = (label: string | undefined) => label?.toLowerCase() === typed.toLowerCase();
  if (typed === "" || items.some(({ label, value }) => same(label) || same(value))) return [];
  return [{ label: typed, description: own, value: typed, alwaysShow: true }];
}

function answer<T>(
  input: QuickInput,
  step: QuestionStep,
  listen: (answered: (value: T) => void) => Disposable[],
): Promise<QuestionAnswer<T>> {
  input.title = step.title;
  input.step = step.step;
  input.totalSteps = step.of;
  // A look at another window, to read the label on the board again, loses nothing that was typed.
  input.ignoreFocusOut = true;
  const stepping = input as QuickInput & {
    buttons: readonly unknown[];
    onDidTriggerButton(listener: () => void): Disposable;
  };
  if (step.back) stepping.buttons = [QuickInputButtons.Back];
  return new Promise((resolve) => {
    let result: QuestionAnswer<T> = "cancelled";
    const done = (value: QuestionAnswer<T>) => {
      result = value;
      input.hide();
    };
    const listening = Disposable.from(
      ...listen((value) => done({ value })),
      stepping.onDidTriggerButton(() => done("back")),
      input.onDidHide(() => {
        listening.dispose();
        input.dispose();
        resolve(result);
      }),
    );
    input.show();
  });
}

/** The item that stands for no answer. */
export const skipItem = (label: string): QuestionItem => ({
  label: l10n.t("Skip"),
  description: label,
});
