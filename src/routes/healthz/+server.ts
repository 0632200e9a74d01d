import { answer } from '../answer.server.ts';

/** For whoever watches the server: 200 while it answers and the disk does. */
export const GET = answer(({ locals }) => locals.app.health());
