const LEVELS = ["error", "warning", "information", "hint", "off"];

/** Characters of a line, as the formatter has it. */
const WIDTH = 110;

/** The shop file's schema with the checks of today under `checks`; all else in it stays as it is. */
export function shopSchema(text, checks) {
  const json = JSON.parse(text);
  json.properties.checks = {
    title: "Checks",
    description:
      "How the findings of each check weigh in the logs of this shop, and the numbers it goes by. The editor's own settings and the command line's options come before it.",
    type: "object",
    properties: Object.fromEntries(checks.map((check) => [check.code, ofCheck(check)])),
    additionalProperties: false,
  };
  return formatted(json);
}

function ofCheck({ title, why, severity, options = [] }) {
  return {
    title,
    description: why,
    type: "object",
    properties: {
      severity: {
        title: "Severity",
        description: `How its findings weigh, \`${severity}\` where nothing is said; \`off\` leaves them out.`,
        type: "string",
        enum: LEVELS,
      },
      ...Object.fromEntries(
        options.map(({ name, description, least, most, default: usual }) => [
          name,
          {
            title: `A number, ${usual} where nothing is said`,
            description,
            type: "number",
            minimum: least,
            maximum: most,
          },
        ]),
      ),
    },
    additionalProperties: false,
  };
}

/** As the formatter writes it: a list of words stands on one line where it fits. */
const formatted = (json) =>
  `${JSON.stringify(json, null, 2).replace(
    /^(.*)\[\n\s+([^[\]{}]*?)\n\s+\](,?)$/gm,
    (whole, before, words, comma) => {
      const line = `${before}[${words.replace(/,\n\s+/g, ", ")}]${comma}`;
      return line.length <= WIDTH ? line : whole;
    },
  )}\n`;
