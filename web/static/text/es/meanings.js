// Spanish of the causes and of the kinds of check, as commands list them. The pages do not load it.

/** @type {Readonly<Record<string, string>>} */
export const meanings = {
  // causes
  'Bank grew where it is to be held.': 'El alabeo creció donde hay que mantenerlo.',
  'Bank came off where it is to be held.': 'El alabeo disminuyó donde hay que mantenerlo.',
  'Above the pivotal altitude: the pylon moved ahead.':
    'Por encima de la altitud pivotal: el pilón se adelantó.',
  'Bank not varied for the wind: the distance from the point changed.':
    'Alabeo sin variar con el viento: cambió la distancia al punto.',
  'Below the pivotal altitude: the pylon fell behind.':
    'Por debajo de la altitud pivotal: el pilón se retrasó.',
  'Faster than at the entry.': 'Más rápido que en la entrada.',
  'Fewer turns than the maneuver has.': 'Menos giros de los que tiene la maniobra.',
  'Height kept where it is to follow the ground speed.':
    'Altura mantenida donde ha de seguir la velocidad sobre el suelo.',
  'Power carried where it is to be at idle.': 'Potencia donde ha de ir al ralentí.',
  'Slower than at the entry.': 'Más lento que en la entrada.',
  'The airspeed went up and down.': 'La velocidad subió y bajó.',
  'The distance from the point changed.': 'La distancia al punto cambió.',
  'The pylon did not stay on the wing.': 'El pilón no se quedó sobre el ala.',
  'Too close to the pylon: too much bank from the start.':
    'Demasiado cerca del pilón: exceso de alabeo desde el principio.',
  'Too much bank.': 'Demasiado alabeo.',
  'Too little bank.': 'Poco alabeo.',
  'Bank held too long, then taken off in a hurry.': 'Alabeo mantenido demasiado, luego quitado con prisa.',
  'Bank put on faster than it was taken off.': 'Alabeo puesto más rápido de lo que se quitó.',
  'Steepest bank before the middle of the turn.': 'Alabeo máximo antes de la mitad del viraje.',
  'Steepest bank after the middle of the turn.': 'Alabeo máximo después de la mitad del viraje.',
  'Bank ahead of the turn.': 'El alabeo va por delante del viraje.',
  'Bank behind the turn.': 'El alabeo va por detrás del viraje.',
  'Wings level before the half turn was done.': 'Alas niveladas antes de acabar el medio viraje.',
  'Rolled out before the heading.': 'Salida antes del rumbo.',
  'Rolled out after the heading: overshoot.': 'Salida después del rumbo: se pasó.',
  'Roll-out begun too early.': 'Salida empezada demasiado pronto.',
  'Roll-out begun too late.': 'Salida empezada demasiado tarde.',
  'Nose still low where the descent is to be over.': 'Morro aún bajo donde el descenso debe haber acabado.',
  'Power added on the way.': 'Potencia añadida por el camino.',
  'Power taken off on the way.': 'Potencia quitada por el camino.',
  'Came out below the entry height.': 'Salida por debajo de la altura de entrada.',
  'Came out above the entry height.': 'Salida por encima de la altura de entrada.',
  'Height lost.': 'Altura perdida.',
  'Height gained that should have been given back.': 'Altura ganada que había que devolver.',
  'Speed left over at the end.': 'Sobró velocidad al final.',
  'Too slow at the end.': 'Demasiado lento al final.',
  'Came out faster than it went in, power not touched on the way.':
    'Salida más rápida que la entrada, sin tocar la potencia.',
  'Came out slower than it went in, power not touched on the way.':
    'Salida más lenta que la entrada, sin tocar la potencia.',
  'Too slow at the top, the nose not too high.': 'Demasiado lento en la cima, con el morro no demasiado alto.',
  'Too fast at the top, the nose not too low.': 'Demasiado rápido en la cima, con el morro no demasiado bajo.',
  'Little height gained in a climbing turn.': 'Poca altura ganada en un viraje ascendente.',
  'No turns to clear the area were seen before it.': 'Antes no se vieron virajes de despeje.',
  'Two or more of speed, level flight and level wings were wrong before the entry.':
    'Antes de la entrada fallaban dos o más: velocidad, vuelo nivelado, alas niveladas.',
  'Entry speed too low.': 'Velocidad de entrada insuficiente.',
  'Entry speed too high.': 'Velocidad de entrada excesiva.',
  'Descending before the entry.': 'En descenso antes de la entrada.',
  'Climbing before the entry.': 'En ascenso antes de la entrada.',
  'Wings not level before the entry.': 'Alas no niveladas antes de la entrada.',
  'The whole turn was flown too quickly.': 'Todo el viraje se voló demasiado rápido.',
  'The whole turn was flown too slowly.': 'Todo el viraje se voló demasiado despacio.',
  'The turn was given up before it was done.': 'El viraje se dejó antes de acabarlo.',
  'The aircraft came below the lowest height allowed.': 'El avión bajó de la altura mínima.',
  'A limit of the aircraft was passed: speed, load or bank.':
    'Se pasó un límite del avión: velocidad, carga o alabeo.',
  'The wing stalled, or came to the edge of it.': 'El ala entró en pérdida, o estuvo al borde.',
  'A steep turn, and hardly a climb.': 'Un viraje escarpado y apenas un ascenso.',
  'Nose too high in the climb.': 'Morro demasiado alto en el ascenso.',
  'Nose too low in the climb.': 'Morro demasiado bajo en el ascenso.',
  'Nose highest too early: the roll-in lagged behind the pull.':
    'Morro más alto demasiado pronto: el alabeo fue detrás del tirón.',
  'Pulled up with the wings level, before the roll.': 'Tirón con las alas niveladas, antes de alabear.',
  'Nose highest too late in the turn.': 'Morro más alto demasiado tarde en el viraje.',
  'Nose came down through the horizon too late.': 'El morro cruzó el horizonte hacia abajo demasiado tarde.',
  'Nose fell fast through the horizon over the top.': 'El morro cayó rápido por el horizonte en la cima.',
  'Nose came down through the horizon too early.': 'El morro cruzó el horizonte hacia abajo demasiado pronto.',
  'Nose, bank or speed held still where all of them are to change.':
    'Morro, alabeo o velocidad quietos donde todo debe cambiar.',
  'Nose sank where it is to be held up.': 'El morro bajó donde hay que mantenerlo arriba.',
  'Nose raised where it is to be held.': 'El morro subió donde hay que mantenerlo.',
  'Two legs in the same direction.': 'Dos tramos al mismo lado.',
  'The legs differ: nose or bank not the same to both sides.':
    'Los tramos difieren: morro o alabeo no son iguales a ambos lados.',
  'The legs together did not end on the heading they began on.':
    'Los tramos juntos no acabaron en el rumbo en que empezaron.',
  'Fewer legs finished than the maneuver has.': 'Menos tramos terminados de los que tiene la maniobra.',
  'Nose too low in the descent.': 'Morro demasiado bajo en el descenso.',
  'The climbing and the descending half are not alike.': 'La mitad ascendente y la descendente no son iguales.',
  'Ball out of the middle: too little rudder, or feet on the floor.':
    'Bola fuera del centro: poco pedal, o los pies en el suelo.',
  'Roll or pull in jerks.': 'Alabeo o tirón a sacudidas.',

  // kinds of check
  'highest or lowest value in the recovery after the exit, less that at the exit':
    'valor máximo o mínimo al recuperar tras la salida, menos el de la salida',
  'share of time with the ball within a distance of the middle, and its worst moment':
    'parte del tiempo con la bola cerca del centro, y su peor momento',
  'change from entry to exit': 'cambio de la entrada a la salida',
  'turn angle where a value is crossed': 'ángulo de viraje en que se cruza un valor',
  'largest departure from the entry, or from the start of the span':
    'mayor desvío de la entrada, o del principio del intervalo',
  'legs flown the same way as the one before': 'tramos volados al mismo lado que el anterior',
  'largest departure at the end of any leg from the value at the first entry':
    'mayor desvío al final de un tramo respecto a la primera entrada',
  'largest departure from a constant rate between the start of a span and the exit':
    'mayor desvío de un ritmo constante entre el principio del intervalo y la salida',
  'highest or lowest value in a span': 'valor máximo o mínimo en un intervalo',
  'turn angle of the highest or lowest value in a span': 'ángulo de viraje del valor máximo o mínimo en un intervalo',
  'height gained from entry to exit over what the reference path gains':
    'altura ganada de la entrada a la salida, frente a la de la trayectoria de referencia',
  'bank farthest from the aim: no steeper anywhere in the leg, no shallower within the span':
    'alabeo más lejos del objetivo: ni mayor en todo el tramo, ni menor en el intervalo',
  'time after the exit for which a quantity stays within a distance of its value there':
    'tiempo tras la salida en que un valor sigue cerca del de allí',
  'finished legs': 'tramos terminados',
  'mean bank between roll-in and roll-out': 'alabeo medio entre la entrada y la salida',
  'highest value in a span less the lowest': 'valor más alto de un intervalo menos el más bajo',
  'largest departure of the distance from the point that is flown round, over its mean':
    'mayor desviación de la distancia al punto que se rodea, sobre su media',
  'mean angle by which the pylon was ahead of the wing line or behind it':
    'ángulo medio del pilón por delante o por detrás de la línea del ala',
  'mean over a span': 'media en un intervalo',
  'height at the end of a span less that at its start, over the greatest height gained':
    'altura al final de un intervalo menos la del principio, frente a la mayor altura ganada',
  'time of the leg over the time of the reference path': 'tiempo del tramo frente al de la trayectoria de referencia',
  'share of the time of a span in which a quantity stayed near one value for longest':
    'parte del tiempo de un intervalo en que un valor estuvo más rato quieto',
  'heading at the end against the first entry heading': 'rumbo al final frente al primer rumbo de entrada',
  'largest reversal of what should only rise, or, with falling = true, only fall':
    'mayor retroceso de lo que solo debe subir o, con falling = true, solo bajar',
  'time of the slowest quarter of a span over that of the quickest':
    'tiempo del cuarto más lento de un intervalo frente al más rápido',
  'largest rise above the value at the start of a span': 'mayor subida sobre el valor al principio de un intervalo',
  'root mean square over a span': 'media cuadrática en un intervalo',
  'turn angle where the roll-out starts: change point of the bank rate':
    'ángulo de viraje en que empieza la salida: donde cambia el ritmo del alabeo',
  'rate of the roll-in over rate of the roll-out': 'ritmo de la entrada frente al de la salida',
  'mean over the set-up, before the leg': 'media antes del tramo',
  'share of time within a band': 'parte del tiempo dentro de una franja',
  'spectral arc length of a rate: −1.4 is one smooth movement, less is rougher':
    'longitud de arco espectral de un ritmo: −1,4 es un movimiento suave, menos es más brusco',
  'difference of a leg check between the legs of a series': 'diferencia de un criterio entre los tramos de una serie',
  'depth below the value of the entry over height above it':
    'profundidad bajo el valor de entrada frente a la altura por encima',
  'value at a turn angle, or at the exit': 'valor a un ángulo de viraje, o a la salida',
  'Turn not begun into the wind.': 'Viraje no empezado contra el viento.',
  'Bank not timed to the pylon: rolled in before it.': 'Alabeo a destiempo: antes del pilón.',
  'Bank not timed to the pylon: rolled in after it.': 'Alabeo a destiempo: después del pilón.',
  'No allowance for drift between the pylons: not as far from each.':
    'Deriva no corregida entre los pilones: distinta distancia a cada uno.',
  'Not as far from the one pylon as from the other.':
    'No a la misma distancia de un pilón que del otro.',
  'time until the pylon would be abeam, in the middle of the roll-in':
    'tiempo hasta tener el pilón por el través, a mitad de la entrada del alabeo',
  'distance from the pylon where the turn began, in the middle of the roll-in':
    'distancia al pilón donde empezó el viraje, a mitad de la entrada del alabeo',
};
