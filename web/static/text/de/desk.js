// German of the desk: all stations at once, and what is said to them.

/** @type {Readonly<Record<string, string>>} */
export const desk = {
  Desk: 'Pult',
  'sound on': 'Ton an',
  Private: 'Privat',
  '1 station': '1 Platz',
  '{n} stations': '{n} Plätze',
  '{n} in trouble': '{n} in Not',
  '{n} in a maneuver': '{n} im Manöver',
  ['Datagrams that this machine lost since it started: {n}, the last at {time}. They came faster than it read ' +
  'them.']:
    'Datagramme, die dieser Rechner seit dem Start verlor: {n}, die letzten um {time}. Sie kamen schneller, als er ' +
    'sie las.',
  'Link: one tick each half second, short where data was lost':
    'Verbindung: ein Strich je halbe Sekunde, kurz, wo Daten fehlten',
  'No simulator yet': 'Noch kein Simulator',
  ['Each simulator that sends to this machine stands here as a small sheet: what is flown, how far around the turn, ' +
  'what is off, what was said, and how its data comes. Those in trouble come first, then those in a maneuver. A ' +
  'touch on a sheet opens that station beside the others.']:
    'Jeder Simulator, der an diesen Rechner sendet, steht hier als kleines Blatt: was geflogen wird, wie weit herum, ' +
    'was abweicht, was gesagt wurde und wie seine Daten kommen. Wer in Not ist, steht vorn, dann wer im Manöver ist. ' +
    'Ein Fingertipp auf ein Blatt öffnet diesen Platz neben den anderen.',
  'Set up a simulator': 'Einen Simulator einrichten',
  'Several simulators? The desk shows them all on one page.':
    'Mehrere Simulatoren? Das Pult zeigt alle auf einer Seite.',
  'Stations, the most urgent first': 'Plätze, die dringendsten zuerst',
  'what it was': 'was es war',
  'What it was at {time}': 'Was es um {time} war',
  Write: 'Notieren',
  'No session is kept here, so there is nothing to write on.':
    'Hier wird keine Sitzung aufgehoben; es gibt nichts, wozu man etwas notieren könnte.',
  'Open the panel': 'Anzeige öffnen',
  'stops the leg at once, says so to {name}': 'beendet den Teil sofort und sagt es {name}',
  '{n} of 100': '{n} von 100',
  'last {n} of 100': 'zuletzt {n} von 100',
  'What is flown, and who flies': 'Was geflogen wird und wer fliegt',
  'Start a new session': 'Neue Sitzung beginnen',
  'Show it: the built-in aircraft flies one': 'Vorführen: das eingebaute Flugzeug fliegt eins',
  'In a leg nothing is changed here.': 'Während eines Teils wird hier nichts geändert.',
  'Say to {name}': '{name} sagen',
  'at most eight words, read aloud': 'höchstens acht Wörter, vorgelesen',
  Say: 'Sagen',
  'Too long to be heard in flight: at most eight words.': 'Zu lang, um es im Flug zu hören: höchstens acht Wörter.',
  'Keep these words': 'Diese Worte behalten',
  'Change the list': 'Liste ändern',
  All: 'Alle',
  Fewer: 'Weniger',
  'Words of one’s own': 'Eigene Worte',
  'Remove: {words}': 'Entfernen: {words}',
  'Said: {words}': 'Gesagt: {words}',
  'in the turn': 'im Kreis',
  '{phase}, to the left': '{phase}, nach links',
  '{phase}, to the right': '{phase}, nach rechts',
  'between legs, {n} of {of}': 'zwischen den Teilen, {n} von {of}',
  Waiting: 'Wartet',
  Stopped: 'Angehalten',
  'Setting up': 'Richtet ein',
  'nothing heard yet': 'noch nichts gehört',
  'check the simulator': 'Simulator prüfen',
  'nothing is judged': 'nichts wird beurteilt',
  'see Set-up': 'siehe Einrichtung',
  'waits for the entry': 'wartet auf den Beginn',
};
