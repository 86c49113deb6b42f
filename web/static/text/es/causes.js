// Spanish of causes and evidence, by the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const causes = {
  'change.keep-the-bank-from-growing': 'Que no crezca el alabeo',
  'change.keep-the-bank-on': 'Mantén el alabeo',
  'change.less-bank': 'Menos alabeo',
  'change.more-bank': 'Más alabeo',
  'change.roll-out-slower': 'Sal del viraje más despacio',
  'change.roll-in-slower': 'Entra más despacio',
  'change.keep-rolling-to-ninety': 'Sigue alabeando hasta noventa',
  'change.steepest-bank-at-ninety': 'Alabeo máximo a noventa',
  'change.roll-slower-nose-first': 'Alabea más despacio, primero el morro',
  'change.keep-the-bank-coming': 'Que siga creciendo el alabeo',
  'change.bank-off-more-slowly': 'Quita el alabeo más despacio',
  'change.hold-the-turn-longer': 'Mantén más el viraje',
  'change.start-the-roll-out-sooner': 'Empieza antes la salida',
  'change.hold-the-bank-to-ninety': 'Mantén el alabeo hasta noventa',
  'change.start-rolling-out-at-ninety': 'Empieza a nivelar a noventa',
  'change.raise-the-nose-sooner': 'Levanta el morro antes',
  'change.leave-the-power-alone': 'No toques la potencia',
  'change.bring-the-nose-up-sooner': 'Sube el morro antes',
  'change.lower-nose-in-descent': 'Morro más bajo al descender',
  'change.pull-out-sooner': 'Recoge antes',
  'change.more-back-pressure': 'Tira más',
  'change.let-the-nose-down-further': 'Baja más el morro',
  'change.ease-the-back-pressure': 'Afloja la presión',
  'change.more-nose-use-the-speed': 'Más morro, aprovecha la velocidad',
  'change.stop-a-little-faster': 'Detente un poco antes',
  'change.less-power-next-time': 'La próxima, menos potencia',
  'change.less-power-in-the-turn': 'Menos potencia en el viraje',
  'change.more-power-next-time': 'La próxima, más potencia',
  'change.more-power-in-the-turn': 'Más potencia en el viraje',
  'change.pull-more-gently': 'Tira más suave',
  'change.pull-more-use-the-speed': 'Tira más, aprovecha la velocidad',
  'change.more-nose-less-bank': 'Más morro, menos alabeo',
  'change.step-on-the-ball': 'Pisa la bola',
  'change.settle-down-before-entry': 'Estabiliza antes de la entrada',
  'change.wait-for-entry-speed': 'Espera la velocidad de entrada',
  'change.slow-down-before-entry': 'Reduce antes de la entrada',
  'change.start-from-level-flight': 'Empieza en vuelo nivelado',
  'change.start-with-wings-level': 'Empieza con alas niveladas',
  'change.slower-do-not-rush': 'Más despacio, sin prisa',
  'change.a-little-quicker': 'Un poco más rápido',
  'change.finish-the-turn': 'Termina el viraje',
  'change.start-higher': 'Empieza más alto',
  'change.stay-inside-the-limits': 'Quédate dentro de los límites',
  'change.pull-the-nose-higher': 'Sube más el morro',
  'change.roll-in-with-the-pull': 'Alabea mientras tiras',
  'change.nose-highest-by-forty-five': 'Morro arriba a cuarenta y cinco',
  'change.let-the-nose-drop-sooner': 'Deja caer antes el morro',
  'change.hold-the-nose-up-longer': 'Mantén más el morro arriba',
  'change.hold-the-nose-up': 'Mantén el morro arriba',
  'change.hold-the-nose-no-higher': 'Mantén el morro, no más',
  'change.the-second-the-other-way': 'El segundo, al otro lado',
  'change.same-picture-both-ways': 'La misma imagen a ambos lados',
  'change.finish-on-the-line': 'Termina sobre la línea',
  'change.fly-all-the-legs': 'Vuela todos los tramos',
  'change.keep-everything-moving': 'Que nada se detenga',
  'change.clear-the-area-first': 'Primero despeja el área',
  'change.climb-not-just-turn': 'Sube, no solo vires',
  'change.slower-roll-at-the-start': 'Alabea más despacio al principio',
  'change.let-the-nose-down-slowly': 'Baja el morro despacio',
  'change.shallower-descent': 'Un descenso más suave',
  'change.same-below-as-above': 'Lo mismo abajo que arriba',
  'change.one-smooth-steady-pressure': 'Una presión suave y constante',

  'correct.bank-grows':
    'El alabeo siguió creciendo después de puesto, como hace por sí solo en un viraje ascendente: sujétalo con un ' +
    'poco de alerón contrario, y con el pedal la bola.',
  'correct.bank-grows-level':
    'El alabeo siguió creciendo después de puesto, como hace por sí solo en un viraje escarpado: sujétalo con un ' +
    'poco de alerón contrario, y con el pedal la bola.',
  'correct.bank-falls-off':
    'El alabeo se quitó demasiado pronto: mira el plano contra el horizonte y mantenlo donde estaba.',
  'correct.overbanked':
    'El alabeo fue excesivo, y más allá el morro se cae: detén antes el alabeo y busca el horizonte por delante del ' +
    'morro.',
  'correct.overbanked-level':
    'El alabeo era excesivo: primero quita alabeo, luego detén la caída de altura tirando. Solo tirar no hace más ' +
    'que cerrar el viraje.',
  'correct.overbanked-climb':
    'El alabeo era excesivo, y la sustentación que debía dar altura dio viraje: detén antes el alabeo y deja que el ' +
    'morro siga subiendo.',
  'correct.underbanked':
    'Faltó alabeo: sigue alabeando despacio hasta el punto máximo, y deja que el morro dé la vuelta.',
  'correct.underbanked-level': 'El alabeo era poco: alabea hasta el que se pide y mantenlo ahí contra el horizonte.',
  'correct.underbanked-climb':
    'El alabeo era poco, y el viraje dura más que la velocidad: alabea primero hasta el que se pide y mantenlo ' +
    'mientras sube el morro.',
  'correct.roll-out-quick':
    'El alabeo se mantuvo demasiado y luego se quitó con prisa: empieza justo pasado noventa y quítalo tan despacio ' +
    'como se puso.',
  'correct.roll-in-quick': 'El alabeo se puso más rápido de lo que se quitó: entra con una presión lenta y uniforme.',
  'correct.bank-peak-early':
    'El alabeo fue máximo demasiado pronto y se quitó antes de que el morro diera la vuelta: alabea más despacio y ' +
    'sigue hasta noventa grados de viraje.',
  'correct.bank-peak-late':
    'El alabeo fue máximo demasiado tarde: tenlo todo a noventa grados de viraje, y empieza enseguida a quitarlo.',
  'correct.bank-leads':
    'El alabeo iba por delante del viraje: deja subir primero el morro, y que el alabeo no crezca más rápido que el ' +
    'viraje.',
  'correct.bank-lags':
    'El alabeo iba por detrás del viraje: empieza a alabear al tirar, y empieza a quitarlo cuando el morro pasa por ' +
    'noventa grados de viraje.',
  'correct.level-early':
    'Las alas estaban niveladas antes del rumbo: quita el alabeo tan despacio que lo último se vaya al llegar el ' +
    'rumbo.',
  'correct.rolled-out-early':
    'Nivelaste antes del rumbo: busca el punto de referencia sobre el plano, y mantén algo de alabeo hasta que esté ' +
    'ahí.',
  'correct.rolled-out-early-level':
    'Nivelaste antes del rumbo: mantén el alabeo hasta que los grados que faltan sean la mitad de él, con el punto ' +
    'de referencia llegando al morro.',
  'correct.rolled-out-late':
    'Viraste más allá del rumbo: empieza antes la salida, para que lo último del alabeo se vaya al llegar el rumbo.',
  'correct.rolled-out-late-to':
    'Viraste más allá del rumbo: empieza antes la salida, para que queden {bank} de alabeo cuando falten {left} de ' +
    'viraje.',
  'correct.rolled-out-late-level':
    'Viraste más allá del rumbo: empieza la salida cuando los grados que faltan sean la mitad del alabeo.',
  'correct.roll-out-begun-early':
    'La salida empezó demasiado pronto: mantén el alabeo hasta que el morro pase de noventa grados de viraje.',
  'correct.roll-out-begun-late':
    'La salida empezó demasiado tarde: empieza a quitar el alabeo cuando el morro pasa por noventa grados de viraje.',
  'correct.dive-not-shallowed':
    'El morro seguía bajo al nivelarse las alas: empieza a subirlo a ciento treinta y cinco, mientras quitas el ' +
    'alabeo.',
  'correct.power-added':
    'Se añadió potencia por el camino y saliste rápido: ponla antes de la entrada y quita la mano hasta nivelar.',
  'correct.power-reduced':
    'Se quitó potencia por el camino y saliste lento: ponla antes de la entrada y quita la mano hasta nivelar.',
  'correct.ends-low':
    'Acabaste por debajo de la altura inicial: sube el morro antes y que el descenso sea tan suave como el ascenso.',
  'correct.ends-high': 'Acabaste por encima de la altura inicial: baja el morro tanto como subió.',
  'correct.height-lost':
    'Acabaste bajo: sube el morro antes, tirando un poco más, antes de que las alas estén niveladas.',
  'correct.height-lost-level':
    'Se perdió altura en el viraje: comprueba primero el alabeo, luego tira más según entra el alabeo, y mantén el ' +
    'morro donde conserva la altura.',
  'correct.height-gained':
    'Acabaste alto: deja bajar más el morro en la segunda mitad y tira menos hasta que las alas estén casi niveladas.',
  'correct.height-gained-level':
    'Se ganó altura en el viraje: afloja la presión hasta que el morro se quede quieto en el horizonte.',
  'correct.too-fast-at-the-end':
    'Sobró velocidad al final: sube más el morro en los primeros noventa grados y conviértela toda en altura.',
  'correct.too-slow-at-the-end':
    'La velocidad se acabó antes del final: mantén el morro algo más bajo desde noventa grados.',
  'correct.exit-fast': 'Saliste rápido sin tocar la potencia: era demasiada, así que pon menos antes de la entrada.',
  'correct.exit-fast-level':
    'La velocidad creció en el viraje: quita un poco de potencia en cuanto pase de la de entrada.',
  'correct.exit-slow': 'Saliste lento sin tocar la potencia: era poca, así que pon más antes de la entrada.',
  'correct.exit-slow-level': 'La velocidad cayó en el viraje: añade un poco de potencia según entra el alabeo.',
  'correct.slow-over-the-top':
    'La velocidad en la cima era poca: afloja cuando el morro pase de cuarenta y cinco grados de viraje.',
  'correct.fast-over-the-top':
    'La velocidad en la cima era demasiada: tira un poco más en los primeros cuarenta y cinco grados, para que más ' +
    'de ella se haga altura.',
  'correct.little-height':
    'Salió poca altura: sube más el morro y alabea menos, para que la velocidad se haga altura y no viraje.',
  'correct.slip-or-skid':
    'La bola estuvo fuera gran parte del viraje: usa el pedal junto con el alerón en cada alabeo, y pisa del lado ' +
    'de la bola.',
  'correct.slip-or-skid-right':
    'La bola estuvo fuera gran parte del viraje: usa el pedal junto con el alerón en cada alabeo, y más pedal ' +
    'derecho al caer la velocidad.',
  'correct.slip-or-skid-left':
    'La bola estuvo fuera gran parte del viraje: usa el pedal junto con el alerón en cada alabeo, y más pedal ' +
    'izquierdo al caer la velocidad.',
  'correct.not-stabilized':
    'En la entrada se movía más de una cosa: mantén altura, velocidad y alas niveladas cinco segundos, y empieza.',
  'correct.entry-slow':
    'Empezaste demasiado lento y faltó velocidad para subir: espera la velocidad de entrada antes de tirar.',
  'correct.entry-slow-level': 'Empezaste demasiado lento: espera la velocidad de entrada antes de alabear.',
  'correct.entry-fast':
    'Empezaste demasiado rápido y todo el viraje fue rápido: ajusta la velocidad de entrada antes de tirar.',
  'correct.entry-fast-level': 'Empezaste demasiado rápido: ajusta la velocidad de entrada antes de alabear.',
  'correct.entry-descending': 'Descendías al empezar: mantén la altura cinco segundos, luego tira.',
  'correct.entry-descending-level': 'Descendías al empezar: mantén la altura cinco segundos, luego alabea.',
  'correct.entry-climbing': 'Ascendías al empezar: mantén la altura cinco segundos, luego tira.',
  'correct.entry-climbing-level': 'Ascendías al empezar: mantén la altura cinco segundos, luego alabea.',
  'correct.entry-banked': 'Las alas no estaban niveladas al empezar: nivélalas sobre la línea, luego tira.',
  'correct.entry-banked-level': 'Las alas no estaban niveladas al empezar: nivélalas sobre la línea, luego alabea.',
  'correct.rushed':
    'El viraje fue precipitado: entra y sal a la mitad de ese ritmo, y deja subir el morro antes de que crezca el ' +
    'alabeo.',
  'correct.dragged':
    'El viraje se alargó: que el alabeo crezca de forma constante, para que el morro dé la vuelta a tiempo.',
  'correct.abandoned':
    'El viraje se dejó a medias: decide antes de tirar, y vuélalo entero hasta alas niveladas en el rumbo.',
  'correct.abandoned-level': 'El viraje se dejó a medias: vuélalo entero hasta alas niveladas en el rumbo.',
  'correct.below-hard-deck': 'Se detuvo en la altura mínima: empieza más alto, e interrumpe tú antes de llegar a ella.',
  'correct.limit-passed':
    'Se pasó un límite del avión: afloja pronto los mandos, y vigila velocidad y carga en el descenso.',
  'correct.stalled':
    'El ala se quedó sin sustentación: afloja la presión en cuanto los mandos se ablanden, y sube menos el morro.',
  'correct.nose-too-high':
    'El morro subió demasiado y la velocidad se acabó en la cima: tira más suave y detén el morro más abajo.',
  'correct.nose-too-high-climb':
    'El morro subió demasiado y la velocidad se acabó antes de nivelar las alas: tira más suave, y guarda velocidad ' +
    'para sostener el morro hasta el final.',
  'correct.nose-too-low':
    'El morro quedó demasiado bajo y la velocidad no se aprovechó: tira un poco más en los primeros cuarenta y ' +
    'cinco grados.',
  'correct.nose-peak-early':
    'El morro estuvo más alto demasiado pronto: empieza a alabear al tirar, para que los cuarenta y cinco grados ' +
    'lleguen cuando el morro está más alto.',
  'correct.roll-in-late':
    'El morro se levantó con las alas aún niveladas, lo que cuesta velocidad antes de empezar el viraje: empieza a ' +
    'alabear al tirar.',
  'correct.nose-peak-late':
    'Tiraste demasiado tiempo: ten el morro en lo más alto a cuarenta y cinco grados de viraje, y que luego lo baje ' +
    'el alabeo.',
  'correct.nose-peak-late-gentle':
    'Los cuarenta y cinco grados llegaron antes de que el morro estuviera más alto: entra más despacio, pues morro ' +
    'arriba y alabeo aceleran ambos el viraje.',
  'correct.nose-late':
    'El morro seguía arriba a noventa: afloja pasados cuarenta y cinco grados y déjalo cruzar el horizonte a noventa.',
  'correct.nose-early':
    'El morro ya estaba abajo a noventa: mantén un poco de presión hasta que cruce ahí el horizonte.',
  'correct.nose-dropped':
    'El morro bajó en la salida: hace falta tirar más al caer la velocidad, así que mantén la imagen hasta nivelar ' +
    'las alas.',
  'correct.nose-still-rising':
    'El morro siguió subiendo en la salida: detenlo a noventa grados de viraje y mantenlo ahí.',
  'correct.held-still':
    'Se mantuvo fijo algo donde nunca hay nada quieto: que morro, alabeo y velocidad cambien despacio, de principio ' +
    'a fin del viraje.',
  'correct.turn-not-climb':
    'Fue un viraje escarpado y apenas un ascenso: sube el morro con el alabeo, para que la velocidad se haga altura ' +
    'camino de noventa grados.',
  'correct.nose-falls-through':
    'El morro cruzó el horizonte de golpe: empieza a bajarlo a cuarenta y cinco grados, y que baje uniforme hasta ' +
    'ciento treinta y cinco.',
  'correct.dive-too-steep':
    'El descenso fue demasiado fuerte: mantén un poco de presión desde noventa grados, y que el morro baje bajo el ' +
    'horizonte tanto como subió.',
  'correct.uneven-halves':
    'Las dos mitades no fueron iguales: que el morro baje a ciento treinta y cinco tanto bajo el horizonte como ' +
    'estuvo encima a cuarenta y cinco.',
  'correct.rough-controls':
    'Los mandos se movieron a tirones: una presión suave y constante para cada cambio, y mira el horizonte en vez ' +
    'de perseguir los números.',
  'correct.not-cleared':
    'Antes no se vieron virajes de despeje: haz dos virajes de noventa grados en sentidos opuestos mirando ' +
    'alrededor, y empieza.',
  'correct.same-direction':
    'Dos tramos fueron al mismo lado: vuela el segundo al otro lado, para practicar ambos y acabar donde empezaste.',
  'correct.uneven':
    'Los tramos no fueron iguales: busca el mismo morro y el mismo alabeo a ambos lados, y compáralos a noventa.',
  'correct.off-the-line':
    'No acabaste en la línea en que empezaste: elige una carretera o una orilla como línea, y sal de cada tramo ' +
    'sobre ella.',
  'correct.legs-missing': 'La maniobra no se voló hasta el final: vuela todos sus tramos, uno tras otro.',

  'evidence.flown': '{label}: {flown}, debe ser {wanted}',
  'evidence.flown-at': '{label}: {flown} a {turn} de viraje, debe ser {wanted}',
  'evidence.power': 'La potencia se movió un {share} %',
  'evidence.power-at': 'La potencia se movió un {share} % a {turn} de viraje',
  'evidence.with': '{shown}; además, {came}',
  'evidence.only-with': 'Además, {came}',
  'evidence.turn-took': 'El viraje duró {took}, los números dan unos {meant}',
  'evidence.nose-at-thirty': 'El morro estaba {nose} sobre el nivel a 30° de viraje, debe ser {aim}',
  'evidence.bank-went': 'El alabeo pasó de {from} a {start} de viraje a {to} a {end}',
  'evidence.level-at': 'Las alas se nivelaron a {turn} de viraje, debe ser {wanted}',
  'evidence.nose-fell': 'El morro bajó {fell} de {from} a {to} de viraje',
  'evidence.energy-short': 'Altura de energía a la salida {off} por debajo de la de la trayectoria de referencia, ' +
    'perdida sobre todo de {from} a {to} de viraje',
  'evidence.energy-over': 'Altura de energía a la salida {off} por encima de la de la trayectoria de referencia, ' +
    'ganada sobre todo de {from} a {to} de viraje',
  'evidence.knock-off': 'Detenido por seguridad: {reason}',
  'evidence.broken-off': 'Abandonado: {reason}',
  'evidence.both-right': 'Los tramos {first} y {second} fueron ambos a la derecha',
  'evidence.both-left': 'Los tramos {first} y {second} fueron ambos a la izquierda',
  'band.exactly': '{value}',
  'band.between': 'de {low:bare} a {high}',
  'band.at-least': 'al menos {low}',
  'band.at-most': 'como máximo {high}',
  'band.any': '–',
  'list.sentences': '{first}; {rest}',
  'correct.rolled-out-early-third':
    'Saliste antes del rumbo: mantén el alabeo hasta que falte un tercio de sus grados.',
  'correct.rolled-out-late-third':
    'Te pasaste del rumbo: empieza la salida cuando los grados que faltan sean un tercio del alabeo.',
  'change.farther-from-the-pylon': 'Más lejos del pilón',
  'change.fly-a-wider-circle': 'Un círculo más amplio',
  'change.fly-higher': 'Vuela más alto',
  'change.fly-lower': 'Vuela más bajo',
  'change.fly-three-whole-turns': 'Vuela tres giros completos',
  'change.follow-pivotal-altitude': 'Sigue la altitud pivotal',
  'change.hold-the-airspeed': 'Mantén la velocidad',
  'change.keep-one-distance': 'Mantén una sola distancia',
  'change.keep-the-pylon-on-the-wing': 'El pilón sobre el ala',
  'change.lower-the-nose-a-little': 'Baja un poco el morro',
  'change.power-at-idle': 'Potencia al ralentí',
  'change.raise-the-nose-a-little': 'Sube un poco el morro',
  'change.vary-bank-for-the-wind': 'Varía el alabeo con el viento',
  'correct.airspeed-fast':
    'La velocidad creció en la espiral: sube un poco el morro al entrar el alabeo y mantén esa imagen.',
  'correct.airspeed-slow':
    'La velocidad cayó en la espiral: baja el morro al entrar el alabeo y mantén esa imagen.',
  'correct.airspeed-wanders':
    'La velocidad subió y bajó: el morro va primero al cambiar el alabeo; espera a que la velocidad ' +
    'se asiente y corrige poco.',
  'correct.altitude-constant':
    'La altura no cambió mientras cambiaba la velocidad sobre el suelo: desciende cuando cae contra ' +
    'el viento, sube cuando crece con él, y el pilón se queda sobre el ala.',
  'correct.altitude-high':
    'Volaste por encima de la altitud pivotal y el pilón se adelantó al ala: desciende hasta que se ' +
    'quede y mantén esa imagen.',
  'correct.altitude-low':
    'Volaste por debajo de la altitud pivotal y el pilón quedó detrás del ala: sube hasta que se ' +
    'quede y mantén esa imagen.',
  'correct.bank-constant':
    'El círculo no se quedó en torno a su punto: más alabeo con viento de cola y menos con viento de ' +
    'cara, un poco antes de que cambie la distancia.',
  'correct.circle-too-small':
    'El alabeo pasó de sesenta grados: vuela un círculo más amplio, para que con viento de cola quede ' +
    'por debajo.',
  'correct.distance-wanders':
    'La distancia al punto cambió: más alabeo en cuanto crece, menos en cuanto se acorta, y la misma ' +
    'velocidad todo el tiempo.',
  'correct.power-not-idle':
    'Había potencia en la espiral: cierra el gas antes de entrar y ábrelo solo para despejar el motor.',
  'correct.pylon-too-close':
    'El alabeo fue excesivo desde el principio: empieza el viraje más lejos del pilón. La distancia ' +
    'fija el alabeo; la velocidad sobre el suelo, la altura.',
  'correct.pylon-wanders':
    'El pilón no se quedó sobre el ala: si va delante, desciende; si detrás, sube; si por encima o ' +
    'por debajo, cambia el alabeo. Nunca con el pedal.',
  'correct.too-few-turns':
    'Hubo menos de tres giros: cuéntalos por el rumbo de entrada y empieza con altura para tres.',
  'evidence.pivotal': 'La altitud pivotal cambió {pivotal}; la altura, {height}',
  'evidence.wind': 'El viento era de {speed} desde {from}',
  'change.turn-into-the-wind': 'Vira contra el viento',
  'change.allow-for-drift': 'Corrige la deriva entre pilones',
  'change.one-distance-from-both': 'La misma distancia a ambos',
  'change.roll-in-later': 'Alabea más tarde',
  'change.roll-in-earlier': 'Alabea antes',
  'correct.out-of-wind':
    'El viraje empezó alejándose del viento: cruza el viento en diagonal hasta un punto a sotavento ' +
    'del pilón, para que cada viraje empiece contra el viento.',
  'correct.drift-between':
    'El viento te llevó entre los pilones: en el tramo recto pon el morro hacia el viento hasta que ' +
    'la trayectoria pase a la misma distancia del siguiente pilón.',
  'correct.pylons-uneven':
    'El segundo pilón no estaba tan lejos como el primero: elige la trayectoria del tramo recto por ' +
    'el siguiente pilón, para que ambos virajes tengan el mismo alabeo.',
  'correct.rolled-in-before-pylon':
    'El alabeo llegó antes que el pilón: espera a que esté justo delante de la punta del ala y ' +
    'alabea hasta que el ala lo señale.',
  'correct.rolled-in-after-pylon':
    'El alabeo llegó después del pilón: empieza a alabear mientras aún está justo delante de la ' +
    'punta del ala.',
  'evidence.wind-out-of': '{speed} de viento venían del otro lado',
  'evidence.drift': '{speed} de viento cruzaban la línea entre los pilones',
};
