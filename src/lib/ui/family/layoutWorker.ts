/** Lays a family out beside the page, so that a large one never holds up a tap. */
import type { Family } from '#pedigree/family/family.ts';
import type { Drawing } from './drawing.ts';
import { layOutFamily } from './layOutFamily.ts';

export type LayoutAnswer =
	| { readonly type: 'progress'; readonly placed: number; readonly all: number }
	| { readonly type: 'done'; readonly drawing: Drawing };

const scope = self as unknown as {
	postMessage(answer: LayoutAnswer): void;
	addEventListener(type: 'message', hear: (event: MessageEvent<Family>) => void): void;
};

scope.addEventListener('message', ({ data }) => {
	const drawing = layOutFamily(data, (placed, all) => scope.postMessage({ type: 'progress', placed, all }));
	scope.postMessage({ type: 'done', drawing });
});
