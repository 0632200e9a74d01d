declare global {
	namespace App {
		interface Locals {
			/** The signed-in member's session, or null; set in hooks.server.ts, read from storage on every request. */
			session: import('#server/auth/session.ts').SignedIn | null;
			/** The server's parts; set in hooks.server.ts. */
			app: import('#server/http/app.ts').App;
			/** This browser's long-lived token: with the member it gives the device. */
			browser: string;
			/** Whether the page came over https: then cookies are for https only. */
			secure: boolean;
		}
		interface Error {
			message: string;
			code?: string;
		}
	}
}

export {};
