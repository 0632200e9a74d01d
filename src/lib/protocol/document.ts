/**
 * The shape of a ledger document: two root maps. In each a key is the log and clock of its own struct, the value one
 * string. So two logs never set one key and Yjs never deletes anything.
 */

/** Root map of the entries: each value is an entry's JSON text. */
export const entriesRoot = 'entries';
/** Root map of the server's word on entries: each value is the JSON text of a Stamp; only in the server's log. */
export const stampsRoot = 'stamps';

/**
 * @param client Yjs client id of the log
 * @param clock of the struct that sets this key
 * @example
 * documentKey(35, 7) // => 'z.7'
 */
export function documentKey(client: number, clock: number): string {
	return `${client.toString(36)}.${clock}`;
}
