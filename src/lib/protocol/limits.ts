/** Limits that both ends hold. The unit stands in the name. */
export const limits = {
	/** One entry's JSON text, in UTF-8 bytes. */
	maxEntryBytes: 16 * 1024,
	/** Entries of one writing (`together`). */
	maxTogether: 64,
	/** One websocket frame. */
	maxFrameBytes: 1024 * 1024,
	/** What a device sends ahead of the answers. */
	maxUnansweredEntries: 200,
	maxUnansweredBytes: 256 * 1024,
	/** A socket that has sent no valid session is closed after this, whatever it sends. */
	signInDeadlineMs: 10_000,
	/** The server answers awareness within this, so that y-websocket does not drop the connection (30 s). */
	idleTimeoutMs: 60_000,
	/** The open document is closed into a volume at either of these, or at the turn of the year. */
	openDocumentEntries: 4_000,
	openDocumentLogs: 1_000,
	/** Client ids are drawn from this range, so that the server's own (1) and old 32-bit ids never meet them. */
	lowestClientId: 2 ** 32,
	highestClientId: Number.MAX_SAFE_INTEGER,
	/** Sockets of one device, and of one club, at once. */
	maxSocketsPerDevice: 4,
	maxSocketsPerClub: 2_000,
	/** How far an id's time may lie ahead of the server's clock before the person is told of it. */
	clockAheadMs: 2 * 60_000
} as const;

/** The server's own log in every document. */
export const serverClientId = 1;
export const protocolVersion = 1;
