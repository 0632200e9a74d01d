const typing =
	'textarea, input:not([type]), input[type="text"], input[type="search"], input[type="date"], input[type="number"]';

/**
 * Is there anything typed on the page that a reload would lose? A search that narrows a list does not count.
 */
export function hasTypedText(page: Document): boolean {
	return [...page.querySelectorAll<HTMLInputElement | HTMLTextAreaElement>(typing)].some(
		(field) => field.type !== 'search' && field.value.trim() !== '' && field.value !== field.defaultValue
	);
}
