// Spanish of the desk: all stations at once, and what is said to them.

/** @type {Readonly<Record<string, string>>} */
export const desk = {
  Desk: 'Mesa',
  'sound on': 'con sonido',
  Private: 'Privado',
  '1 station': '1 puesto',
  '{n} stations': '{n} puestos',
  '{n} in trouble': '{n} en apuros',
  '{n} in a maneuver': '{n} en maniobra',
  ['Datagrams that this machine lost since it started: {n}, the last at {time}. They came faster than it read ' +
  'them.']:
    'Datagramas que este equipo ha perdido desde que arrancó: {n}, los últimos a las {time}. Llegaban más rápido de ' +
    'lo que los leía.',
  'Link: one tick each half second, short where data was lost':
    'Enlace: una raya cada medio segundo, corta donde faltaron datos',
  'No simulator yet': 'Aún no hay simulador',
  ['Each simulator that sends to this machine stands here as a small sheet: what is flown, how far around the turn, ' +
  'what is off, what was said, and how its data comes. Those in trouble come first, then those in a maneuver. A ' +
  'touch on a sheet opens that station beside the others.']:
    'Cada simulador que envía datos a este equipo aparece aquí como una hoja pequeña: qué se vuela, cuánto se ha ' +
    'virado, qué se desvía, qué se dijo y cómo llegan sus datos. Primero van los que están en apuros, luego los que ' +
    'están en una maniobra. Al tocar una hoja se abre ese puesto junto a los demás.',
  'Set up a simulator': 'Preparar un simulador',
  'Several simulators? The desk shows them all on one page.':
    '¿Varios simuladores? La mesa los muestra todos en una página.',
  'Stations, the most urgent first': 'Puestos, los más urgentes primero',
  'what it was': 'qué fue',
  'What it was at {time}': 'Qué fue a las {time}',
  Write: 'Anotar',
  'No session is kept here, so there is nothing to write on.':
    'Aquí no se guarda ninguna sesión; no hay dónde anotar nada.',
  'Open the panel': 'Abrir el panel',
  'stops the leg at once, says so to {name}': 'detiene el tramo al momento y se lo dice a {name}',
  '{n} of 100': '{n} de 100',
  'last {n} of 100': 'último {n} de 100',
  'What is flown, and who flies': 'Qué se vuela y quién vuela',
  'Start a new session': 'Empezar otra sesión',
  'Show it: the built-in aircraft flies one': 'Mostrarlo: el avión incorporado vuela una',
  'In a leg nothing is changed here.': 'Durante un tramo aquí no se cambia nada.',
  'Say to {name}': 'Decir a {name}',
  'at most eight words, read aloud': 'ocho palabras como mucho, leídas en voz alta',
  Say: 'Decir',
  'Too long to be heard in flight: at most eight words.':
    'Demasiado largo para oírlo en vuelo: ocho palabras como mucho.',
  'Keep these words': 'Guardar estas palabras',
  'Change the list': 'Cambiar la lista',
  All: 'Todas',
  Fewer: 'Menos',
  'Words of one’s own': 'Palabras propias',
  'Remove: {words}': 'Quitar: {words}',
  'Said: {words}': 'Dicho: {words}',
  'in the turn': 'en el viraje',
  '{phase}, to the left': '{phase}, a la izquierda',
  '{phase}, to the right': '{phase}, a la derecha',
  'between legs, {n} of {of}': 'entre tramos, {n} de {of}',
  Waiting: 'Espera',
  Stopped: 'Detenido',
  'Setting up': 'Preparándose',
  'nothing heard yet': 'aún no se oye nada',
  'check the simulator': 'revisar el simulador',
  'nothing is judged': 'no se evalúa nada',
  'see Set-up': 'ver Preparación',
  'waits for the entry': 'espera la entrada',
};
