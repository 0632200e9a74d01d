export const load = async ({ locals }) => ({
	clubs: (locals.session?.clubs ?? []).map(({ club, clubName, name }) => ({ club, clubName, name })),
	isEmpty: await locals.app.accounts.isEmpty()
});
