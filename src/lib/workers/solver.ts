/** The solver of exchange plans, loaded once for each worker that asks for it; from our own host, so also offline. */
import loadHighs, { type Highs } from 'highs';

let place = '';
let loading: Promise<Highs> | undefined;

/** The page says where its build has put the solver: only what the page itself names is kept for work offline. */
export function solverIsAt(url: string): void {
	place = url;
}

/** Where nobody has said a place, as under plain Node, the solver finds its own file. */
export function loadSolver(): Promise<Highs> {
	return (loading ??= loadHighs(place ? { locateFile: () => place } : {}));
}
