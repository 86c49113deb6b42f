// Spanish of the words that explain themselves, and of what they mean.

/** @type {Readonly<Record<string, string>>} */
export const terms = {
  'clearing turns': 'virajes de despeje',
  'energy height': 'altura de energía',
  'hard deck': 'altura mínima',
  unload: 'descarga',
  'reference path': 'trayectoria de referencia',
  'set-up gate': 'condición',
  'three choices, then fly': 'tres pasos y a volar',
  ['A knock-off: the leg ended because a limit of safety was passed, and counts as missed; or a person stopped ' +
    'it, and it counts for nothing. Recover to level flight before anything else.']:
    'El tramo terminó porque se pasó un límite de seguridad, y cuenta como fallado; o lo detuvo una persona, y no ' +
    'cuenta. Antes que nada, vuelve al vuelo recto y nivelado.',
  ['The height above the ground below which nothing of the maneuver may go on. Passing it ends the leg: level ' +
    'the wings and climb.']:
    'La altura sobre el suelo por debajo de la cual no se sigue con la maniobra. Pasarla termina el tramo: nivela ' +
    'las alas y sube.',
  'Turns flown before the maneuver to look for other traffic: 90° to one side and back, or 180° around.':
    'Virajes antes de la maniobra para buscar otro tráfico: 90° a un lado y de vuelta, o 180° en redondo.',
  'Ease the stick forward until the load is light. The wing stalls later then, and the airplane rolls freely.':
    'Afloja la palanca hacia delante hasta que la carga sea poca. Así el ala entra en pérdida más tarde y el ' +
    'avión alabea con facilidad.',
  ['The maneuver flown as the card asks, calculated for this aircraft without wind. It is what a leg is ' +
    'compared with.']:
    'La maniobra tal como la pide la ficha, calculada para este avión y sin viento. Con ella se compara un tramo.',
  ['Each line is a set-up gate: what must hold before the leg begins. When all are met the panel says Ready; ' +
    'what is only advised does not hold it back.']:
    'Cada línea es una condición que debe cumplirse antes del tramo. Con todas cumplidas, el panel da el listo; ' +
    'lo que solo se aconseja no lo retiene.',
  'A score of 95 or more: to the standard, without help.': '95 puntos o más: según la norma y sin ayuda.',
  'A score from 80 to 94: to the standard.': 'De 80 a 94 puntos: según la norma.',
  'A score from 60 to 79: nearly there, not yet to the standard.':
    'De 60 a 79 puntos: cerca de la norma, pero todavía no.',
  'A score below 60: practice the parts before the whole.':
    'Menos de 60 puntos: practica las partes antes que el todo.',
  'Within the limits of the standard.': 'Dentro de los límites de la norma.',
  'A little outside the limits: close, but not met.':
    'Un poco fuera de los límites: cerca, pero no cumplido.',
  'Well outside the limits of the standard.': 'Claramente fuera de los límites de la norma.',
  ['Height plus V²/2g: what height and airspeed together are worth in feet. Trading one for the other leaves it as ' +
    'it is; power adds to it, drag and load take from it. Source: FAA-H-8083-3C p. 4-7.']:
    'Altura más V²/2g: lo que valen juntas la altura y la velocidad, en pies. Cambiar una por otra la deja igual; ' +
    'la potencia la aumenta, la resistencia y la carga la reducen. Fuente: FAA-H-8083-3C p. 4-7.',
};
