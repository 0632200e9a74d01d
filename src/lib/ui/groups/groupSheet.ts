/** Which question is asked over a group's page. */
export type GroupSheet =
	'count' | 'fewer' | 'more' | 'stage' | 'mix' | 'close' | 'quarantine' | 'spare' | 'name' | 'words' | 'end';
