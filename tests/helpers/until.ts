/** Waits until a condition holds; the error names what was awaited. */
export async function until(
	awaited: string,
	holds: () => boolean | Promise<boolean>,
	timeoutMs = 30_000
): Promise<void> {
	const end = Date.now() + timeoutMs;
	while (!(await holds())) {
		if (Date.now() > end) throw new Error(`waited ${timeoutMs} ms for ${awaited}`);
		await new Promise((turn) => setTimeout(turn, 5));
	}
}
