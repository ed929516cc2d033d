/**
 * A text as it can stand in a file without being read as something else. Numbers need no quotes: the schema
 * says that text is meant. Within brackets commas and brackets would end it.
 */
export function yamlText(text: string, flow: boolean): string {
  const plain =
    /^[^\s\-?:,[\]{}#&*!|>'"%@`][^\r\n\t]*$|^-[^\s-]/.test(text) &&
    !/:(\s|$)|\s#|\s$/.test(text) &&
    !(flow && /[,[\]{}]/.test(text)) &&
    !/^(?:null|true|false|~)$/i.test(text);
  return plain ? text : JSON.stringify(text);
}

/** A closing brace in a snippet, where a bare one could end a tab stop. */
export const CLOSE = "\\}";
