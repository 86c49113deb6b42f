// German of what is read in flight: what is wrong, what is left, and what waits.

/** @type {Readonly<Record<string, string>>} */
export const cockpit = {
  now: 'jetzt',
  up: 'aufwärts',
  down: 'abwärts',
  'allowed here {range}': 'hier erlaubt {range}',
  '{by} too steep': '{by} zu steil',
  '{by} too shallow': '{by} zu flach',
  '{by} too high': '{by} zu hoch',
  '{by} too low': '{by} zu tief',
  '{by} too fast': '{by} zu schnell',
  '{by} too slow': '{by} zu langsam',
  'Over the stall': 'Über der Überziehfahrt',
  'Over the hard deck': 'Über der Mindesthöhe',
  closing: 'sinkt',
  'stays {until}': 'bleibt, {until}',
  'Cues wait {until}.': 'Ansagen warten, {until}.',
  'until the bank is back inside its limit': 'bis die Querlage wieder in ihrer Grenze ist',
  'until there is speed over the stall again': 'bis wieder Fahrt über der Überziehfahrt da ist',
  'until the flight is above the hard deck again': 'bis der Flug wieder über der Mindesthöhe ist',
  'until the load is back inside its limits': 'bis das Lastvielfache wieder in seinen Grenzen ist',
  'until the speed is back under its limit': 'bis die Fahrt wieder unter ihrer Grenze ist',

  // before a leg
  'Ready, speed not known': 'Bereit, Fahrt nicht bekannt',
  'Climb: {value}, want {want}': 'Steigen: {value}, nötig {want}',
  'Level the wings: {value}': 'Flächen gerade: {value}',
  'Stop the climb: {value}': 'Steigen beenden: {value}',
  'Stop the descent: {value}': 'Sinken beenden: {value}',
  'Hold the speed steady: {want}': 'Fahrt halten: {want}',
  'Slow down: {value}, want {want}': 'Langsamer: {value}, nötig {want}',
  'Speed up: {value}, want {want}': 'Schneller: {value}, nötig {want}',
  'Center the ball: {value}': 'Kugel in die Mitte: {value}',
  'Turn onto the line: {value} off': 'Auf die Linie drehen: {value} daneben',
  'Waiting for the first data': 'Warten auf die ersten Daten',
  'Looking at the set-up': 'Die Ausgangslage wird betrachtet',
  'flown in: {aircraft}': 'geflogen mit: {aircraft}',

  // hands on the stick
  'Keys and buttons': 'Tasten und Knöpfe',
  'A joystick is seen once one of its buttons was pressed here.':
    'Ein Joystick wird gesehen, sobald hier einer seiner Knöpfe gedrückt wurde.',
  'A button box can send POST /do/mark, or the line halfturn mark to the UDP port.':
    'Ein Tastenkasten kann POST /do/mark senden, oder die Zeile halfturn mark an den UDP-Port.',
  'press a button': 'Knopf drücken',
  'choose a button': 'Knopf wählen',
  '{act}: no button': '{act}: kein Knopf',
  'Mark the moment': 'Den Augenblick merken',
  'Sound on or off': 'Ton an oder aus',
  'Next maneuver': 'Nächstes Manöver',
  'Who flies: the next name': 'Wer fliegt: der nächste Name',
  'Show the keys': 'Die Tasten zeigen',
  'Sound off': 'Ton aus',
  Marked: 'Gemerkt',
  'Marked at {turn}°': 'Gemerkt bei {turn}°',
};
