// German of what a verdict rests on. The keys are the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const grade = {
  'head.count': '{met} von {of} in den Grenzen',
  'head.all': 'Alle {of} Prüfpunkte in den Grenzen',
  'head.within': 'Im Standard: {within}; beinahe: {what}',
  'head.nearly': 'Beinahe: {what}; {within}',
  'head.not-yet': 'Noch nicht: {what}; {within}',
  'head.not-yet-more': 'Noch nicht: {what} und {more} weitere; {within}',
  'head.past-limit': 'Über die Grenze: {what}; {within}',
  'head.stopped': 'Zur Sicherheit beendet: {why}',
  'head.not-complete': 'Unvollständig: {what}',
  'head.nothing': 'Nichts war zu messen',
  'head.not-measured': 'Nicht gemessen: {why}',
  'head.unmeasured': '{headline}; {none} von {all} Prüfpunkten nicht gemessen',
  'head.corrected-once': '{headline}; eine Korrektur unterwegs',
  'head.corrected': '{headline}; {times} Korrekturen unterwegs',
  'head.both-legs': 'Beide Teile im Standard',
  'head.legs': 'Alle {legs} Teile im Standard',
  'head.of-leg': 'Teil {leg}: {headline}',
  'head.another': 'Ein anderes Manöver wurde geflogen: {maneuver}',
  'change.none': 'Noch einmal, genauso',
};
