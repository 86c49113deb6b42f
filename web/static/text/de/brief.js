// German words of the brief.

/** @type {Readonly<Record<string, string>>} */
export const brief = {
  // the brief
  Brief: 'Vorbesprechung',
  Numbers: 'Zahlen',
  'Before you begin': 'Bevor es losgeht',
  'In the turn': 'In der Kurve',
  'Usual errors': 'Übliche Fehler',
  'What to see': 'Was zu sehen ist',
  'What to fly': 'Was zu fliegen ist',
  'Callout': 'Ansage',
  Sources: 'Quellen',
  'Reference path': 'Bezugsbahn',
  'reference point': 'Bezugspunkt',
  '{n} more': '{n} weitere',
  'What to change, when it goes wrong': 'Was zu ändern ist, wenn es misslingt',
  'What can cost most comes first.': 'Zuerst, was am meisten kosten kann.',
  'The band is what is allowed, the line the reference path, over the turn':
    'Das Band ist, was erlaubt ist, die Linie die Bezugsbahn, über der Kurve',
  'What is allowed, over the turn': 'Was erlaubt ist, über der Kurve',
  'From above, no wind, to the right': 'Von oben, ohne Wind, nach rechts',
  'From the side, one scale': 'Von der Seite, ein Maßstab',
  'From the side, height drawn {n} times': 'Von der Seite, Höhe {n}-fach gezeichnet',
  'From the side it is a line: height is held.': 'Von der Seite ist es eine Linie: die Höhe wird gehalten.',
  'The reference path from above, entered upward, turning right':
    'Die Bezugsbahn von oben, Beginn nach oben, Kurve nach rechts',
  'The reference path from the side, entered to the right': 'Die Bezugsbahn von der Seite, Beginn nach rechts',
  'Not known: {what}.': 'Nicht bekannt: {what}.',
  'They need an aircraft card: choose one above, or measure yours from a recording with':
    'Dazu braucht es eine Flugzeugkarte: oben eine wählen oder die eigene aus einer Aufnahme messen mit',
  ['Without an aircraft there is no reference path, so the highest nose, the height it takes, the load and ' +
    'the margin over the stall cannot be told.']:
    'Ohne Flugzeug gibt es keine Bezugsbahn: höchste Nase, nötige Höhe, Last und Abstand zur Überziehfahrt ' +
    'lassen sich nicht sagen.',
  'There is no reference path: {why}.': 'Es gibt keine Bezugsbahn: {why}.',
  'All the numbers, and what to expect': 'Alle Zahlen, und was zu erwarten ist',
};
