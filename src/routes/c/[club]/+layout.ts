/** Everything below a club is drawn on the device, from what is on the device. */
export const ssr = false;
export const prerender = false;
