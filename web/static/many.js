// Whether this browser has seen more than one station: then the desk stands among the pages.

const key = 'halfturn.desk';

/** @returns {boolean} */
export function sawMany() {
  try {
    return localStorage.getItem(key) === '1';
  } catch {
    return false; // storage is off: Set-up leads to the desk
  }
}

/** Notes that there is more than one station. */
export function seeMany() {
  try {
    if (localStorage.getItem(key) !== '1') localStorage.setItem(key, '1');
  } catch {
    // storage is off
  }
}
