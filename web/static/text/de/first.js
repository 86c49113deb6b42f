// The German words of the first page: simulator, aircraft, maneuver, demonstration, measuring.

/** @type {Readonly<Record<string, string>>} */
export const first = {};
