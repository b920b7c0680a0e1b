/** Of the form of a project file; apart from the schema itself, so that whoever only begins a file need not carry it. */
export const SCHEMA_VERSION = 1
