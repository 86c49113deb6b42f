// Spanish of what published tests ask for.

/** @type {Readonly<Record<string, string>>} */
export const elements = {
  errors: 'errores',
  look: 'mirada',
  toward: 'hacia la maniobra',
  'S5 altitude': 'S5 altitud',
  'S5 airspeed': 'S5 velocidad',
  'S5 bank': 'S5 alabeo',
  'S5 roll-out': 'S5 salida',
  'S7 heading': 'S7 rumbo',
  'S7 airspeed': 'S7 velocidad',
  'area cleared': 'zona despejada',
  'entry speed of the maker, else not above the maneuvering speed':
    'velocidad de entrada del fabricante, o no más que la de maniobra',
  'coordinated turn of 360°, bank about 50°': 'viraje coordinado de 360°, alabeo de unos 50°',
  'then the other way': 'después al otro lado',
  'within 100 ft of the entry': 'a menos de 100 ft de la entrada',
  'within 10 kt of the entry': 'a menos de 10 kt de la entrada',
  'within 5° of 50°': 'a menos de 5° de 50°',
  'within 10° of the entry heading': 'a menos de 10° del rumbo de entrada',
  'stall near the ground': 'pérdida cerca del suelo',
  'uncoordinated flight': 'vuelo descoordinado',
  'attention, collision, distraction': 'atención, colisión, distracción',
  'coordinated turn of 360°, bank about 45°': 'viraje coordinado de 360°, alabeo de unos 45°',
  'the other way, as the evaluator says': 'al otro lado, como diga el examinador',
  'within 5° of 45°': 'a menos de 5° de 45°',
  'no part below 1,500 ft above the ground': 'nada por debajo de 1.500 ft sobre el suelo',
  'entry configuration, power and airspeed': 'configuración, potencia y velocidad de entrada',
  'bank about 30°': 'alabeo de unos 30°',
  'power and pitch together; coordinated climb to 90°, bank constant, airspeed always falling':
    'potencia y morro a la vez; ascenso coordinado hasta 90°, alabeo constante, velocidad siempre menor',
  'roll-out from 90° to 180° at a constant rate, power and pitch attitude held':
    'salida de 90° a 180° a ritmo constante, potencia y morro mantenidos',
  'wings level at 180°, within 10°': 'alas niveladas a 180°, a menos de 10°',
  'just above the stall, held for a moment, no stall': 'justo sobre la pérdida, mantenido un momento, sin pérdida',
  'back to straight and level with the least loss of height':
    'vuelta al vuelo recto y nivelado con la menor pérdida de altura',
  'energy management': 'gestión de la energía',
  'rate and radius of turn in a confined area': 'ritmo y radio de viraje en un espacio reducido',
  'recommended entry configuration, power and airspeed':
    'configuración, potencia y velocidad de entrada recomendadas',
  'coordinated throughout': 'coordinado todo el tiempo',
  'steepest bank about 30°': 'alabeo máximo de unos 30°',
  'pitch, roll rate and airspeed always changing': 'morro, ritmo de alabeo y velocidad siempre cambiando',
  'altitude at 180° within 100 ft of the entry': 'altitud a 180° a menos de 100 ft de la entrada',
  'airspeed at 180° within 10 kt of the entry': 'velocidad a 180° a menos de 10 kt de la entrada',
  'heading at 180° within 10°': 'rumbo a 180° a menos de 10°',
  'symmetrical loops, as many as told, then straight and level':
    'bucles simétricos, tantos como se pidan, después recto y nivelado',
  'stall, also accelerated, near the ground': 'pérdida, también acelerada, cerca del suelo',
  'at least 45°': 'al menos 45°',
  '180° in all, two opposite 90s are enough': '180° en total, bastan dos opuestos de 90°',
  'the last one toward the maneuver': 'el último hacia la maniobra',
  'a look around': 'una mirada alrededor',
  'height wrong after it': 'altura equivocada después',
  'only clearing turns show in a stream, not the look around':
    'en los datos solo se ven los virajes de despeje, no la mirada',
  'the speed is that of the aircraft card, whose maneuvering speed a stream does not show':
    'la velocidad es la de la ficha de avión, cuya velocidad de maniobra no está en los datos',
  'the hard deck is a limit that ends the leg; what the pilot weighs does not show':
    'el suelo de seguridad es un límite que termina el tramo; lo que el piloto sopesa no se ve',
  'nothing of them is in a stream': 'nada de eso está en los datos',
  'the hard deck: a limit that ends the leg, not a check':
    'el suelo de seguridad: un límite que termina el tramo, no una comprobación',
  'flaps and gear are in few streams; the speed is that of the aircraft card':
    'flaps y tren están en pocos datos; la velocidad es la de la ficha de avión',
  'that power and pitch come together is judged by what follows from it':
    'que potencia y morro vayan juntos se juzga por lo que resulta',
  'the height gained is shown and not counted: no number is published':
    'la altura ganada se muestra y no cuenta: no hay cifra publicada',
  'the area is in no stream': 'la zona no está en los datos',
  'the level flight that follows is no part of a leg': 'el vuelo nivelado que sigue no es parte de un tramo',
  'judged by what it comes to at each 180°': 'se juzga por lo que resulta en cada 180°',
  'known when the maneuver begins: the check clearing-side of its card':
    'se sabe al empezar la maniobra: la comprobación clearing-side de su ficha',
  'no stream shows where the pilot looks': 'ningún dato muestra adónde mira el piloto',
  banks: 'alabeos',
  entry: 'entrada',
  sides: 'lados',
  turns: 'virajes',
  'airspeed held within 10 kt, with power as the bank takes it':
    'velocidad mantenida a menos de 10 kt, con la potencia que pide el alabeo',
  'any heading will do here; cruise is the airspeed at the entry':
    'aquí vale cualquier rumbo; crucero es la velocidad de la entrada',
  'from cruise on a cardinal heading': 'desde crucero en un rumbo cardinal',
  'height held within 100 ft': 'altura mantenida a menos de 100 ft',
  'no power for speed, bank drift, height loss, poor trim, no lookout':
    'sin potencia para la velocidad, alabeo que cambia, pérdida de altura, mal compensado, sin mirar',
  'through 30°, 90° and 180°, the roll-out led by a third of the bank; within 10°':
    'de 30°, 90° y 180°, con la salida adelantada un tercio del alabeo; a menos de 10°',
  'to alternating sides': 'a lados alternos',
  'trim and lookout do not show in a stream': 'el compensador y la mirada no se ven en un flujo',
  'two turns each at 15°, 30° and 45° of bank': 'dos virajes a cada 15°, 30° y 45° de alabeo',
  'S6 airspeed': 'S6 velocidad',
  'S6 floor': 'S6 altura mínima',
  'S6 roll-out': 'S6 salida',
  pylons: 'pilones',
  'a turn about each of two pylons, to opposite sides':
    'un viraje en torno a cada uno de dos pilones, a lados opuestos',
  'attention shared, coordinated': 'atención repartida, coordinado',
  'bank at most 40°': 'alabeo de 40° como mucho',
  'circle corrected for wind, bank at most 60° at the steepest place':
    'círculo corregido por el viento, alabeo de 60° como mucho en el punto mayor',
  'constant radius about a point on the ground, bank at most 60°':
    'radio constante en torno a un punto del suelo, alabeo de 60° como mucho',
  'coordinated, attention shared': 'coordinado, atención repartida',
  'effects of wind': 'efectos del viento',
  'emergency landing in reach': 'aterrizaje de emergencia al alcance',
  'entry in direction, place, height and airspeed': 'entrada en dirección, lugar, altura y velocidad',
  'height for at least three turns of 360°': 'altura para al menos tres giros de 360°',
  'limits of airframe and airspeed': 'límites de estructura y velocidad',
  'line of sight kept on the pylon by smooth, continuous corrections':
    'línea visual sobre el pilón con correcciones suaves y continuas',
  'load and never-exceed speed are limits that end the leg, not checks':
    'carga y velocidad máxima son límites que acaban el tramo, no comprobaciones',
  'no stream shows what lies below': 'ningún flujo muestra lo que hay debajo',
  'pivotal altitude found': 'altitud pivotal encontrada',
  'pylon held by pivotal altitude, without slip or skid':
    'pilón mantenido por la altitud pivotal, sin derrape ni resbale',
  'pylons that allow a straight and level leg between them':
    'pilones con un tramo recto y nivelado entre ellos',
  'toward an object or heading, within 10°': 'hacia un objeto o rumbo, a menos de 10°',
  'where attention goes does not show in a stream': 'en qué se pone la atención no se ve en un flujo',
  'within 10 kt of the airspeed stated': 'a menos de 10 kt de la velocidad declarada',
  'no number is published': 'no hay cifra publicada',
};
