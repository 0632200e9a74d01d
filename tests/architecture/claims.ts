/** What a page of documentation claims and a machine can check. */

/** Paths and commands named in code spans, code blocks and links of a page. */
export function claimsOf(page: string): { paths: string[]; scripts: string[] } {
	const blocks = [...page.matchAll(/^```[^\n]*\n([\s\S]*?)^```/gm)].map((match) => match[1]!);
	const prose = page.replace(/^```[^\n]*\n[\s\S]*?^```/gm, '');
	const spans = [...prose.matchAll(/`([^`\n]+)`/g)].map((match) => match[1]!);
	const links = [...prose.matchAll(/\]\(([^)\s]+)\)/g)].map((match) => match[1]!);
	const words = [...spans, ...blocks].flatMap((text) => text.split(/[\s,;]+/));
	const paths = [...words, ...links].map((word) =>
		word.replace(/[.:]+$/, '').replace(/#.*(?<=.)$/, keepAlias)
	);
	const scripts = [...blocks, ...spans].flatMap((text) =>
		[...text.matchAll(/\bnpm (?:run (?:-s |--silent )?([\w:-]+)|(test|start)\b)/g)].map(
			(match) => match[1] ?? match[2]!
		)
	);
	return { paths: [...new Set(paths.filter(isPath))], scripts: [...new Set(scripts)] };
}

/** The part after `#` in a link is a heading; at the beginning it is an alias of package.json. */
function keepAlias(match: string, offset: number): string {
	return offset === 0 ? match : '';
}

/** Places that the project keeps; what the program makes while it runs (`data/`, `build/`) is not among them. */
function isPath(word: string): boolean {
	if (/[<>{}$()|"'=…]/.test(word)) return false;
	return (
		/^(\.\/)?(src|server|tests|static|\.config|\.ci)\/[\w@+./*[\]-]*$/.test(word) ||
		/^#[a-z]+\/[\w./*-]+$/.test(word) ||
		/^(README|DEVELOPERS|package|package-lock|tsconfig|vite\.config|svelte\.config)\.(md|json|ts|js)$/.test(
			word
		)
	);
}
