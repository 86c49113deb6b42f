// German of what a verdict rests on. The keys are the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const grade = {
  'head.count': '{met} von {of} in den Grenzen',
  'head.all': 'Im Standard: alle {of} Prüfpunkte in den Grenzen',
  'head.within': 'Im Standard: {within}; beinahe: {what}',
  'head.nearly': 'Beinahe: {what}; {within}',
  'head.not-yet': 'Noch nicht: {what}; {within}',
  'head.not-yet-more': 'Noch nicht: {what} und {more} weitere; {within}',
  'head.past-limit': 'Über die Grenze: {what}; {within}',
  'head.stopped': 'Zur Sicherheit beendet: {why}',
  'head.given-up': 'Abgebrochen: {why}',
  'head.not-complete': 'Unvollständig: {what}',
  'head.nothing': 'Nichts war zu messen',
  'head.not-measured': 'Nicht gemessen: {why}',
  'head.unmeasured': '{headline}; {none} von {all} Prüfpunkten nicht gemessen',
  'head.legs': 'Im Standard: alle {legs} Teile',
  'head.of-leg': 'Teil {leg}: {headline}',
  'change.none': 'Noch einmal, genauso',
};
