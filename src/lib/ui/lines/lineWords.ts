import type { FishGroup, LineDefinition, LineKind } from '#records/state.ts';

export const kindWords: { readonly [Kind in LineKind]: string } = {
	conservation: 'conservation line',
	strain: 'colour/fin strain'
};

export const fishGroupWords: { readonly [Group in FishGroup]: string } = {
	bristlenose: 'Bristlenose',
	guppy: 'Guppy',
	livebearer: 'Other livebearers',
	goodeid: 'Goodeids',
	killifish: 'Killifish',
	'annual killifish': 'Annual killifish',
	rainbowfish: 'Rainbowfish',
	'dwarf cichlid': 'Dwarf cichlids',
	corydoras: 'Corydoras',
	other: 'Other fish'
};

export const movementWords: { readonly [Movement in LineDefinition['movement']]: string } = {
	none: 'No special rules known',
	listed: 'A listed species: papers may be needed',
	native: 'A native fish here',
	restricted: 'Restricted in some places'
};
