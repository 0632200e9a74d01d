/**
 * Keeps a long text that is being typed over a reload of this tab. A browser that keeps nothing loses only that.
 */
export function draftText(key: string): { read(): string; write(text: string): void } {
	return {
		read() {
			try {
				return sessionStorage.getItem(key) ?? '';
			} catch {
				return '';
			}
		},
		write(text) {
			try {
				if (text) sessionStorage.setItem(key, text);
				else sessionStorage.removeItem(key);
			} catch {
				// Nothing to do: the text stands on the screen.
			}
		}
	};
}
