// German of the words that explain themselves, and of what they mean.

/** @type {Readonly<Record<string, string>>} */
export const terms = {
  'clearing turns': 'Kontrollkurven',
  'energy height': 'Energiehöhe',
  'hard deck': 'Mindesthöhe',
  unload: 'entlasten',
  'reference path': 'Bezugsbahn',
  'set-up gate': 'Bedingung',
  'three choices, then fly': 'drei Schritte, dann fliegen',
  ['A knock-off: the leg ended because a limit of safety was passed, and counts as missed; or a person stopped ' +
    'it, and it counts for nothing. Recover to level flight before anything else.']:
    'Der Teil endete, weil eine Grenze der Sicherheit überschritten wurde, und zählt als verfehlt; oder ein Mensch ' +
    'hat ihn abgebrochen, dann zählt er nicht. Zuerst in den Geradeausflug zurück.',
  ['The height above the ground below which nothing of the maneuver may go on. Passing it ends the leg: level ' +
    'the wings and climb.']:
    'Die Höhe über Grund, unter der das Manöver nicht weitergeht. Wer sie unterschreitet, beendet den Teil: ' +
    'Flächen gerade und steigen.',
  'Turns flown before the maneuver to look for other traffic: 90° to one side and back, or 180° around.':
    'Kurven vor dem Manöver, um nach anderem Verkehr zu sehen: 90° zur einen Seite und zurück, oder 180° herum.',
  'Ease the stick forward until the load is light. The wing stalls later then, and the airplane rolls freely.':
    'Den Knüppel nachlassen, bis das Lastvielfache klein ist. So reißt die Strömung später ab, und das Flugzeug ' +
    'rollt leicht.',
  ['The maneuver flown as the card asks, calculated for this aircraft without wind. It is what a leg is ' +
    'compared with.']:
    'Das Manöver, wie die Karte es verlangt, für dieses Flugzeug ohne Wind berechnet. Damit wird ein Teil ' +
    'verglichen.',
  ['Each line is a set-up gate: what must hold before the leg begins. When all are met the panel says Ready; ' +
    'what is only advised does not hold it back.']:
    'Jede Zeile ist eine Bedingung, die vor dem Teil erfüllt sein muss. Sind es alle, meldet die Anzeige bereit; ' +
    'was nur empfohlen ist, hält nicht auf.',
  'A score of 95 or more: to the standard, without help.':
    '95 Punkte oder mehr: wie es der Maßstab verlangt, ohne Hilfe.',
  'A score from 80 to 94: to the standard.': '80 bis 94 Punkte: wie es der Maßstab verlangt.',
  'A score from 60 to 79: nearly there, not yet to the standard.':
    '60 bis 79 Punkte: fast so, wie es der Maßstab verlangt.',
  'A score below 60: practice the parts before the whole.':
    'Weniger als 60 Punkte: zuerst die Abschnitte einzeln üben.',
  'Within the limits of the standard.': 'Innerhalb der Grenzen des Maßstabs.',
  'A little outside the limits: close, but not met.': 'Etwas außerhalb der Grenzen: knapp nicht erfüllt.',
  'Well outside the limits of the standard.': 'Deutlich außerhalb der Grenzen des Maßstabs.',
  ['Height plus V²/2g: what height and airspeed together are worth in feet. Trading one for the other leaves it as ' +
    'it is; power adds to it, drag and load take from it. Source: FAA-H-8083-3C p. 4-7.']:
    'Höhe plus V²/2g: was Höhe und Fahrt zusammen in Fuß wert sind. Das eine gegen das andere zu tauschen ändert ' +
    'sie nicht; Leistung gibt hinzu, Widerstand und Last nehmen. Quelle: FAA-H-8083-3C S. 4-7.',
};
