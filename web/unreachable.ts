// Why a core's file is worth another try. The worker finds it out, and the page is told.

/** The core's file did not come, or not whole: there may be no signal. Everything else that goes wrong stays wrong. */
export class Unreachable extends Error {}
