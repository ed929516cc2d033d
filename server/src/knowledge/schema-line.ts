import { SCHEMAS, type SchemaKind } from "./schema";

/** Names that lead nowhere, kept for examples (RFC 2606, sections 2 and 3). */
const NOWHERE = /^https:\/\/(?:[^/]+\.)?(?:example\.(?:com|net|org)|[^/]*\.(?:example|invalid|test))\//;

/**
 * The comment by which other servers of YAML find the schema of a file, with its line break; nothing as long as the schemas'
 * address is a placeholder, for those servers complain of an address from which nothing comes.
 * @param address of the schema
 */
export const schemaLineOf = (address: string | undefined): string =>
  address === undefined || NOWHERE.test(address) ? "" : `# yaml-language-server: $schema=${address}\n`;

/** The same for a kind of file. */
export const schemaLine = (kind: SchemaKind): string => schemaLineOf(SCHEMAS[kind].$id);
