/** The solver of exchange plans, loaded once for each worker that asks for it; from our own host, so also offline. */
import loadHighs, { type Highs } from 'highs';
import wasmUrl from 'highs/runtime?url';

let loading: Promise<Highs> | undefined;

export function loadSolver(): Promise<Highs> {
	return (loading ??= loadHighs({ locateFile: () => wasmUrl }));
}
