declare global {
	namespace App {
		interface Locals {
			/** The signed-in member's session, or null; set in hooks.server.ts, read from storage on every request. */
			session: import('#server/auth/session.ts').SignedIn | null;
		}
		interface Error {
			message: string;
			code?: string;
		}
	}
}

export {};
