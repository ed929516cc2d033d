const LEVELS = ["default", "error", "warning", "information", "hint", "off"];

/** package.json with the settings and snippets of today; all else in it stays as it is. */
export function manifest(text, checks) {
  const json = JSON.parse(text);
  const { configuration, snippets, ...others } = json.contributes ?? {};
  json.contributes = {
    ...others,
    configuration: {
      ...configuration,
      title: "Mendlog",
      properties: {
        ...configuration?.properties,
        "mendlog.severity": severitySetting(checks),
        "mendlog.options": optionsSetting(checks),
      },
    },
    snippets: [...(snippets ?? []).filter(({ path }) => path !== SNIPPETS.path), SNIPPETS],
  };
  return `${JSON.stringify(json, null, 2)}\n`;
}

const SNIPPETS = { language: "markdown", path: "./snippets/log.code-snippets" };

function severitySetting(checks) {
  return {
    type: "object",
    scope: "resource",
    markdownDescription: "%setting.severity%",
    default: {},
    additionalProperties: false,
    properties: Object.fromEntries(
      checks.map(({ code, title, severity, why }) => [
        code,
        {
          enum: LEVELS,
          markdownDescription: `${title} (${severity}). ${why}`,
        },
      ]),
    ),
  };
}

function optionsSetting(checks) {
  return {
    type: "object",
    scope: "resource",
    markdownDescription: "%setting.options%",
    default: {},
    additionalProperties: false,
    properties: Object.fromEntries(
      checks
        .filter(({ options }) => options?.length > 0)
        .map(({ code, title, options }) => [
          code,
          {
            type: "object",
            markdownDescription: title,
            additionalProperties: false,
            properties: Object.fromEntries(
              options.map(({ name, description, least, most, ...option }) => [
                name,
                {
                  type: "number",
                  minimum: least,
                  maximum: most,
                  default: option.default,
                  markdownDescription: description,
                },
              ]),
            ),
          },
        ]),
    ),
  };
}
