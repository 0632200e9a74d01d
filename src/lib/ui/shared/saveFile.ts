/** Gives the person a file to keep, wherever the browser puts such files. */
export function saveFile(name: string, content: string): void {
	const url = URL.createObjectURL(new Blob([content], { type: 'application/json' }));
	const link = document.createElement('a');
	link.href = url;
	link.download = name;
	document.body.append(link);
	link.click();
	link.remove();
	// Some browsers read the content only after the click has been dealt with.
	setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
