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
  'Said as it comes': 'Ansage dazu',
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
  'not given': 'nicht angegeben',
  'no aircraft card is chosen': 'keine Flugzeugkarte gewählt',
  'Stall speed with wings level': 'Überziehfahrt im Geradeausflug',
  Power: 'Leistung',
  'Hard deck above the ground': 'Mindesthöhe über Grund',
  'Highest nose above level': 'Höchste Nase über dem Geradeausflug',
  'Time of a leg': 'Dauer eines Teils',
  'Highest load factor': 'Größtes Lastvielfaches',
  'Least margin over the stall': 'Kleinster Abstand zur Überziehfahrt',
  'Smallest radius, no wind': 'Kleinster Radius ohne Wind',
  'Maneuvering speed': 'Manöverfahrt',
  'Start no lower, above the ground': 'Mindestens beginnen über Grund',
  'climb power': 'Steigleistung',
  '# rpm': '# U/min',
  'as set before entry': 'wie vor Beginn gesetzt',
  'Bands half as wide again: the shape first, the numbers later.':
    'Bänder um die Hälfte breiter: erst die Form, dann die Zahlen.',
  'The published test, element by element. Wing-over and traditional chandelle have none.':
    'Die veröffentlichte Prüfung, Punkt für Punkt. Für Wing-over und klassische Chandelle gibt es keine.',
  "The trade's usual tolerances, as written on the maneuver cards.":
    'Die üblichen Toleranzen, wie sie auf den Manöverkarten stehen.',
  'For simulator practice only. Never for use in an aircraft, and not for navigation.':
    'Nur zum Üben im Simulator. Nie in einem Flugzeug verwenden und nicht zur Navigation.',
  'It gives no credit toward a license.': 'Es wird nicht auf eine Lizenz angerechnet.',
  "The aircraft's handbook, local rules and a licensed instructor come first.":
    'Flughandbuch, örtliche Regeln und ein zugelassener Fluglehrer gehen vor.',
  'Level on the opposite heading': 'Gerade auf dem Gegenkurs',
  'Level on the entry heading': 'Gerade auf dem Anfangskurs',
  'Level on the new heading': 'Gerade auf dem neuen Kurs',
  ['Height was lost in the turn: add back pressure as the bank comes on, and take a little bank off if the ' +
    'nose still drops.']:
    'In der Kurve ging Höhe verloren: mit der Querlage mehr ziehen und etwas Querlage herausnehmen, wenn die ' +
    'Nase weiter sinkt.',
  'Height was gained in the turn: ease the back pressure until the nose stands still on the horizon.':
    'In der Kurve wurde Höhe gewonnen: nachlassen, bis die Nase am Horizont stillsteht.',
  'The bank was too steep: take a little off, and check it against the horizon before the nose drops.':
    'Die Querlage war zu groß: etwas herausnehmen und am Horizont prüfen, bevor die Nase sinkt.',
  'The bank was too shallow: roll on to the bank wanted and hold it there against the horizon.':
    'Die Querlage war zu klein: bis zur gewünschten weiterrollen und sie dort am Horizont halten.',
  'The speed grew in the turn: take a little power off as soon as it passes the entry speed.':
    'In der Kurve wuchs die Fahrt: etwas Leistung herausnehmen, sobald sie die Anfangsfahrt überschreitet.',
  'The speed fell in the turn: add a little power as the bank comes on.':
    'In der Kurve sank die Fahrt: mit der Querlage etwas Leistung geben.',
};
