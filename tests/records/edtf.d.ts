declare module 'edtf' {
	/** Parses ISO 8601-2 / EDTF text; throws on text that is none. */
	export default function edtf(text: string): unknown;
}
