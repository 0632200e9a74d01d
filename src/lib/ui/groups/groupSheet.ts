/** Which question is asked over a group's page. */
export type GroupSheet =
	| 'count'
	| 'fewer'
	| 'more'
	| 'move'
	| 'stage'
	| 'mix'
	| 'close'
	| 'quarantine'
	| 'spare'
	| 'name'
	| 'words'
	| 'end';
