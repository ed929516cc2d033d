// The bill of materials of what the bundles hold, as CycloneDX 1.5 (https://cyclonedx.org/docs/1.5/json/): the same packages
// as in the notices. It holds no time and no random number, so that two builds of one source are the same.

/**
 * @param {readonly { name: string, version: string, licence?: string, home?: string }[]} packages as `packagesOf` gives them
 * @param {{ name: string, version: string, license: string }} own our own package.json
 * @returns {string} JSON
 */
export function sbomText(packages, own) {
  const main = { type: "application", ...about(own.name, own.version, own.license) };
  const components = packages.map(({ name, version, licence, home }) => ({
    type: "library",
    ...about(name, version, licence),
    ...(isAddress(home) ? { externalReferences: [{ type: "website", url: home }] } : {}),
  }));
  const bom = {
    $schema: "http://cyclonedx.org/schema/bom-1.5.schema.json",
    bomFormat: "CycloneDX",
    specVersion: "1.5",
    version: 1,
    metadata: { component: main },
    components,
    dependencies: [{ ref: main["bom-ref"], dependsOn: components.map((one) => one["bom-ref"]) }],
  };
  return `${JSON.stringify(bom, null, 2)}\n`;
}

function about(full, version, licence) {
  const [scope, name] = full.startsWith("@") ? full.split("/") : [undefined, full];
  // The package URL of npm has the at sign of a scope escaped (purl-spec, types: npm).
  const purl = `pkg:npm/${scope === undefined ? "" : `${encodeURIComponent(scope)}/`}${name}@${version}`;
  return {
    "bom-ref": purl,
    ...(scope === undefined ? {} : { group: scope }),
    name,
    version,
    ...(licence === undefined ? {} : { licenses: [licenceOf(licence)] }),
    purl,
  };
}

/** One name is a licence by its SPDX identifier, more are an expression. */
const licenceOf = (licence) =>
  /[\s()]/.test(licence) ? { expression: licence } : { license: { id: licence } };

const isAddress = (home) => typeof home === "string" && /^https?:\/\/\S+$/.test(home);
