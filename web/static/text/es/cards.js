// Spanish of the cards: titles, summaries, parts of the turn, what to see, checks.

/** @type {Readonly<Record<string, string>>} */
export const cards = {
  // maneuvers
  ['A climbing half turn: bank and nose grow together to 60° of bank at 90°, and the bank comes off at the rate it ' +
    'came.']:
    'Medio viraje ascendente: alabeo y morro crecen juntos hasta 60° de alabeo a 90°, y el alabeo se quita al ritmo ' +
    'con que se puso.',
  'A climbing half turn: bank held to 90° while the nose rises, then the nose held while the bank comes off.':
    'Medio viraje ascendente: alabeo mantenido hasta 90° mientras sube el morro, luego morro mantenido mientras se ' +
    'quita el alabeo.',
  ['A climbing turn through 90° and a descending one through 90 more, back at entry speed and height the other way.']:
    'Un viraje ascendente de 90° y otro descendente de 90 más, de vuelta a la velocidad y altura de entrada en ' +
    'sentido contrario.',
  'Chandelle, bank growing': 'Chandelle, alabeo creciente',
  'Chandelle, constant bank': 'Chandelle, alabeo constante',
  'Clearing turns': 'Virajes de despeje',
  'Lazy eight': 'Ocho perezoso',
  'Once around at 45° of bank, height and speed held, then once around the other way.':
    'Una vuelta completa con 45° de alabeo, altura y velocidad mantenidas, y otra hacia el otro lado.',
  'Once around at 50° of bank, height and speed held, then once around the other way.':
    'Una vuelta completa con 50° de alabeo, altura y velocidad mantenidas, y otra hacia el otro lado.',
  'Steep turn, 45° of bank': 'Viraje escarpado, 45° de alabeo',
  'Steep turn, 50° of bank': 'Viraje escarpado, 50° de alabeo',
  ['Two half turns in opposite directions, each a slow climb to 90° and a slow descent back to entry speed and ' +
    'height.']:
    'Dos medios virajes en sentidos opuestos, cada uno un ascenso lento hasta 90° y un descenso lento de vuelta a ' +
    'la velocidad y altura de entrada.',
  ['Level turns at 15°, 30° and 45° of bank through 30°, 90° and 180°, left and right, height and ' +
    'airspeed held.']:
    'Virajes nivelados a 15°, 30° y 45° de alabeo de 30°, 90° y 180°, a izquierda y derecha, con ' +
    'altura y velocidad mantenidas.',
  'A turn about each of two pylons, left and right, each kept on the wing by flying at the pivotal altitude.':
    'Un viraje en torno a cada uno de dos pilones, a izquierda y derecha, con cada uno sobre el ala ' +
    'al volar a la altitud pivotal.',
  'Eights on pylons': 'Ochos sobre pilones',
  'Steep spiral': 'Espiral cerrada',
  'Three gliding turns about a point on the ground, distance and airspeed held, out on the first heading.':
    'Tres giros hacia abajo sin potencia en torno a un punto del suelo, con distancia y velocidad ' +
    'mantenidas, y salida al primer rumbo.',
  'Turn pattern': 'Serie de virajes',
  'Two level turns of 90° in opposite directions before a maneuver, with eyes outside: is the area clear?':
    'Dos virajes nivelados de 90° en sentidos opuestos antes de una maniobra, mirando fuera: ¿está libre el área?',
  'Whichever is flown': 'La que se vuele',
  'Wing-over': 'Wing-over',

  // standards
  'Bands half as wide again: the shape first, the numbers later.':
    'Límites la mitad más anchos: primero la forma, después los números.',
  'Check flight': 'Examen en vuelo',
  Course: 'Curso',
  Practice: 'Práctica',
  'The published test, element by element. Wing-over and traditional chandelle have none.':
    'El examen publicado, elemento a elemento. El wing-over y la chandelle tradicional no tienen.',
  "The trade's usual tolerances, as written on the maneuver cards.":
    'Las tolerancias habituales del oficio, como están en las fichas de maniobra.',
  check: 'examen',
  course: 'curso',
  practice: 'práctica',

  // aircraft
  '1950 rpm': '1950 rpm',
  'Light single': 'Monomotor ligero',
  'Radial-engine trainer': 'Entrenador de motor radial',
  'Turboprop trainer': 'Entrenador turbohélice',
  'as set before entry': 'la puesta antes de la entrada',
  'climb power': 'potencia de ascenso',

  // cautions
  'For simulator practice only. Never for use in an aircraft, and not for navigation.':
    'Solo para practicar en simulador. Nunca usar en un avión ni para navegar.',
  'It gives no credit toward a license.': 'No cuenta para ninguna licencia.',
  "The aircraft's handbook, local rules and a licensed instructor come first.":
    'El manual del avión, las normas locales y un instructor titulado están por encima.',

  // phases
  'back to level': 'de vuelta a nivel',
  'bank and nose growing': 'alabeo y morro crecientes',
  'bank set, nose rising': 'alabeo puesto, morro subiendo',
  'climbing, bank growing': 'subiendo, alabeo creciente',
  'descending, bank coming off': 'bajando, quitando alabeo',
  'look around': 'mirar alrededor',
  'nose down, roll out': 'morro abajo, nivelar las alas',
  'nose held up, bank off': 'morro mantenido arriba, alabeo fuera',
  'nose held, bank off': 'morro mantenido, alabeo fuera',
  'over the top': 'por la cima',
  'pull and roll in': 'tirar y alabear',
  'pull out': 'recoger',
  'roll in': 'entrar en el viraje',
  'roll out': 'salir del viraje',
  'first turn': 'primer giro',
  'second turn': 'segundo giro',
  'third turn': 'tercer giro',
  'pylon on the wing': 'pilón sobre el ala',
  'the turn': 'el viraje',

  // checkpoints
  'bank 30°, nose rising': 'alabeo 30°, morro subiendo',
  'bank 45°, height held': 'alabeo 45°, altura mantenida',
  'bank 50°, height held': 'alabeo 50°, altura mantenida',
  'bank and nose both growing': 'alabeo y morro, ambos creciendo',
  'bank half off, nose held': 'mitad del alabeo fuera, morro mantenido',
  'bank steepest, nose still rising': 'alabeo máximo, morro aún subiendo',
  'entry speed and height, into the other turn': 'velocidad y altura de entrada, hacia el otro viraje',
  'halfway, height and speed held': 'a la mitad, altura y velocidad mantenidas',
  'halfway: look behind the wing': 'a la mitad: mira detrás del plano',
  'highest nose, bank 15° and growing': 'morro más alto, alabeo 15° y creciendo',
  'highest nose, bank growing': 'morro más alto, alabeo creciendo',
  'lowest nose, bank 15° and coming off': 'morro más bajo, alabeo 15° y disminuyendo',
  'nose highest, begin the roll-out': 'morro más alto, empieza a nivelar las alas',
  'nose through level, bank steepest, slowest': 'morro por el horizonte, alabeo máximo, lo más lento',
  'nose through the horizon, bank steepest': 'morro por el horizonte, alabeo máximo',
  'roll-out under way, nose high': 'saliendo del viraje, morro alto',
  'rolling out, nose lowest': 'saliendo del viraje, morro más bajo',
  'halfway round, pylon on the wing': 'a la mitad, pilón sobre el ala',
  'same distance, same airspeed': 'misma distancia, misma velocidad',
  'pylon on the wing, height by the pivotal altitude': 'pilón sobre el ala, altura según la altitud pivotal',
  'three turns: wings level on the entry heading': 'tres giros: alas niveladas en el rumbo de entrada',
  'wings level, on to the other pylon': 'alas niveladas, hacia el otro pilón',
  'three quarters': 'tres cuartos',
  'wings level on the entry heading': 'alas niveladas en el rumbo de entrada',
  'wings level on the new heading': 'alas niveladas en el nuevo rumbo',
  'wings level, entry height and speed': 'alas niveladas, altura y velocidad de entrada',
  'wings level, just above the stall': 'alas niveladas, justo sobre la pérdida',
  'wings level, nose still up': 'alas niveladas, morro aún arriba',
  'wings level: clear?': 'alas niveladas: ¿libre?',

  // checks
  'Area cleared': 'Área despejada',
  'Back on the first heading': 'De vuelta al primer rumbo',
  'Ball within a quarter of its width': 'Bola a menos de un cuarto de su ancho',
  'Ball most of the time': 'Bola casi todo el tiempo',
  'Bank always moving': 'Alabeo siempre en movimiento',
  'Bank as set': 'Alabeo como se fijó',
  'Bank at 135°': 'Alabeo a 135°',
  'Bank at 45°': 'Alabeo a 45°',
  'Bank at 90°': 'Alabeo a 90°',
  'Bank held': 'Alabeo mantenido',
  'Bank held to 90°': 'Alabeo mantenido hasta 90°',
  'Bank of the clearing turns': 'Alabeo de los virajes de despeje',
  'Bank at the start of the turn': 'Alabeo al empezar el viraje',
  'Distance from the point': 'Distancia al punto',
  'Fastest, against the entry': 'Velocidad mayor, frente a la entrada',
  'Height off the pivotal altitude': 'Altura respecto a la altitud pivotal',
  'How far the height moved': 'Cuánto cambió la altura',
  'How far the pivotal altitude moved': 'Cuánto cambió la altitud pivotal',
  'Power in the spiral': 'Potencia en la espiral',
  'Pylon off the wing line': 'Pilón fuera de la línea del ala',
  'Slowest, against the entry': 'Velocidad menor, frente a la entrada',
  'Turn in all': 'Viraje en total',
  'Entry speed': 'Velocidad de entrada',
  'Same height at 135° as at 45°': 'Altura a 135° como a 45°',
  'Height at each exit, from the first entry': 'Altura en cada salida, frente a la primera entrada',
  'Height at the exit': 'Altura a la salida',
  'Height gained': 'Altura ganada',
  'Height held': 'Altura mantenida',
  'Height kept in the recovery': 'Altura conservada al recuperar',
  'Highest load factor': 'Factor de carga máximo',
  'Highest nose': 'Morro más alto',
  'Same highest nose on each leg': 'El mismo morro más alto en cada tramo',
  'Last clearing turn, toward the maneuver': 'Último viraje de despeje, hacia la maniobra',
  'Legs finished': 'Tramos terminados',
  'Legs flown twice the same way': 'Tramos volados dos veces al mismo lado',
  'Level flight before entry': 'Vuelo nivelado antes de la entrada',
  'Lowest nose': 'Morro más bajo',
  'Same lowest nose on each leg': 'El mismo morro más bajo en cada tramo',
  'Lowest speed': 'Velocidad mínima',
  'Margin over the stall': 'Margen sobre la pérdida',
  'Nose always moving': 'Morro siempre en movimiento',
  'Nose at 90°': 'Morro a 90°',
  'Nose held in the roll-out, not dropped': 'Morro mantenido al salir, sin caer',
  'Nose held in the roll-out, not raised': 'Morro mantenido al salir, sin subir',
  'Nose never let down': 'Morro sin bajar nunca',
  'Nose as far down as it was up': 'Morro tan abajo como estuvo arriba',
  'Power left alone': 'Potencia sin tocar',
  'Power left alone once set': 'Potencia sin tocar una vez puesta',
  Rhythm: 'Ritmo',
  'Same rhythm on each leg': 'El mismo ritmo en cada tramo',
  'Roll-in as quick as the roll-out': 'Entrada al alabeo tan rápida como la salida',
  'Roll-out at one rate': 'Salida del viraje a un ritmo constante',
  'Even pace through the turn': 'Ritmo uniforme durante el viraje',
  'Smoothness of the pull': 'Suavidad al tirar',
  'Smoothness of the roll': 'Suavidad al alabear',
  'Speed always changing': 'Velocidad siempre cambiando',
  'Speed at each exit, from the first entry': 'Velocidad en cada salida, frente a la primera entrada',
  'Speed at the exit': 'Velocidad a la salida',
  'Speed at the exit held for a moment': 'Velocidad a la salida mantenida un momento',
  'Speed falling throughout': 'Velocidad disminuyendo todo el tiempo',
  'Speed held': 'Velocidad mantenida',
  'Steepest bank': 'Alabeo máximo',
  'Same steepest bank on each leg': 'El mismo alabeo máximo en cada tramo',
  'Turn at the exit': 'Ángulo de viraje a la salida',
  'Where the bank is steepest': 'Dónde es máximo el alabeo',
  'Where the nose is highest': 'Dónde está más alto el morro',
  'Where the roll-out starts': 'Dónde empieza la salida del viraje',
  'Wings level before entry': 'Alas niveladas antes de la entrada',

  // courses
  'First course': 'Primer curso',
  'Wing-over and chandelle: the parts, then the whole, on both sides, then a silent check of each.':
    'Wing-over y chandelle: las partes, luego el conjunto, a ambos lados, y un examen en silencio de cada una.',
  'Commercial performance maneuvers': 'Maniobras del piloto comercial',
  'The maneuvers of FAA-S-ACS-7 area V in its order: each to the standard, then a silent check.':
    'Las maniobras de FAA-S-ACS-7 área V en su orden: cada una hasta la norma, luego un examen en silencio.',
  'Against a weakness': 'Contra una debilidad',
  'One thing that keeps going wrong: the part that shows it, then the whole maneuver, then a silent check.':
    'Algo que sale mal una y otra vez: la parte que lo muestra, luego la maniobra entera y un examen en silencio.',
  'Wing-over: roll-out onto the line': 'Wing-over: salida sobre la línea',
  'Wing-over, the whole': 'Wing-over, entero',
  'Wing-over, to the standard': 'Wing-over, hasta la norma',
  'Chandelle: bank held to 90°': 'Chandelle: alabeo mantenido hasta 90°',
  'Chandelle: nose held, bank off': 'Chandelle: morro fijo, alabeo fuera',
  'Chandelle, the whole': 'Chandelle, entera',
  'Chandelle, to the standard': 'Chandelle, hasta la norma',
  'Check: wing-over': 'Examen: wing-over',
  'Check: chandelle': 'Examen: chandelle',
  'Check: steep turn': 'Examen: viraje escarpado',
  'Check: lazy eight': 'Examen: ocho perezoso',
  'Check: steep spiral': 'Examen: espiral cerrada',
  'Check: eights on pylons': 'Examen: ochos sobre pilones',
  'Steep turn': 'Viraje escarpado',
  'The part that shows it': 'La parte que lo muestra',
  'The whole maneuver': 'La maniobra entera',
  'Level roll, the ball held': 'Alabear en vuelo nivelado, bola centrada',
  'Roll-out from 90°': 'Nivelar desde 90°',
  'A level half turn: 30° of bank held to 90°, then taken off at one rate, so that it is gone at 180°.':
    'Medio viraje nivelado: 30° de alabeo hasta 90°, luego se quita a ritmo constante, de modo que a 180° ya ' +
    'no queda.',
  'Roll briskly into a level turn at 45° of bank, and as briskly out at 90° of turn, the ball held by the feet.':
    'Entrar con decisión en un viraje nivelado a 45° de alabeo y salir igual a los 90°, con la bola sujeta ' +
    'por los pies.',
  'bank 30°, begin the roll-out': 'alabeo 30°, empezar a nivelar',
  'bank about 20°, coming off': 'alabeo de unos 20°, disminuyendo',
  'wings level': 'alas niveladas',
  'highest nose, bank 45°': 'morro más alto, alabeo 45°',
  'wings and nose level': 'alas y morro nivelados',
  'Wing-over to 45°, back to level': 'Wing-over hasta 45°, vuelta a nivelar',
  'Wing-over to 90°, wings level on top': 'Wing-over hasta 90°, nivelar arriba',
  'Nose and bank grow together to 45° of turn, highest nose and 45° of bank there; then both back to level.':
    'Morro y alabeo crecen juntos hasta 45° de viraje, allí el morro más alto y 45° de alabeo; luego ambos a ' +
    'nivel.',
  'The first half of a wing-over: nose through the horizon and bank steepest at 90°, then wings level on top.':
    'La primera mitad de un wing-over: a 90° el morro cruza el horizonte con el mayor alabeo; luego se ' +
    'nivela arriba.',
  'Wind from the side of the turn': 'Viento del lado del viraje',
  'Roll-in, until the pylon is abeam': 'Entrada, hasta el pilón por el través',
  'Distance from the pylon at the start': 'Distancia al pilón al empezar',
  'Same distance from each pylon': 'Misma distancia a cada pilón',
};
