// Spanish of recordings, sessions and the logbook, by the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const archive = {
  'capture.unreadable': '{why}; debe ser un archivo de captura pcap o pcapng, tal cual o comprimido con gzip o zstd',
  'capture.begins': 'el archivo empieza por {bytes}',
  'capture.empty': 'el archivo está vacío o tiene solo unos bytes',
  'capture.gzip': 'el archivo está comprimido con gzip, pero dañado',
  'capture.zstd': 'el archivo está comprimido con zstd, pero dañado',
  'capture.not-ng': 'el archivo no es pcapng',
  'capture.header': 'la cabecera de este archivo pcap no se entiende ({why})',
  'capture.link': 'el tipo de enlace {link} no se entiende: graba en una interfaz Ethernet, loopback o IP pura',
  'capture.cut': 'la grabación está cortada tras {packets} paquetes; se leyeron los anteriores',
  'capture.damaged': 'la grabación está dañada tras {packets} paquetes ({why}); se leyeron los anteriores',
  'capture.too-long': 'la grabación contiene más de {most} sin comprimir',
  'capture.too-dense': 'la grabación contiene más de {most} en un archivo de {file} o más: más de {times} veces',
  'recording.empty': 'la sesión {session} no tiene grabación: no se puede sacar nada de ella',
  'recording.unknown':
    '{name} no es ni una sesión en {folder} ni una grabación; nombra una de las carpetas de allí, o un archivo pcap ' +
    'o pcapng',
  'recording.bare-folder': '{name} es una carpeta sin grabación; nombra una sesión, su carpeta o un archivo de captura',

  'log.line': 'línea {line}: {why}',
  'log.column': 'línea {line}, columna {column} ({name}): {why}',
  'log.two-bytes': 'el texto usa dos bytes por letra (UTF-16); guárdalo como UTF-8',
  'log.unknown':
    'no es un registro de texto: líneas de al menos tres columnas con números, bajo una línea con sus nombres',
  'log.no-rows': 'aquí están los nombres de las columnas, y no sigue ninguna línea con números',
  'log.no-names':
    'las columnas no tienen nombre, y ningún mapa conocido tiene este orden; pon delante una línea con los nombres, ' +
    'o da un mapa con --map ARCHIVO',
  'log.missing':
    'de ninguna columna se sabe que contenga {channels}; halfturn grade --map propose ARCHIVO imprime un mapa para ' +
    'estas columnas, para corregirlo, guardarlo y darlo con --map',
  'log.no-time': 'ninguna columna contiene la hora; nómbrala en un mapa, o da las líneas por segundo con --rate N',
  'log.bad-time':
    '{value} no es una hora; deben ser segundos, horas:minutos:segundos, o fecha y hora como 2031-05-04T10:15:30',

  'import.size': '{why}; no se importa (halfturn sessions import --most-size y --most-ratio permiten más)',
  'import.sessions':
    'la captura contiene más de {most} sesiones, una nueva tras cada {silence} de silencio; no se importa (halfturn ' +
    'sessions import --most-sessions permite más)',
  'import.no-datagrams':
    'no contiene ningún datagrama UDP: de {packets} paquetes, {other} son de otro tipo, {fragments} son fragmentos, ' +
    '{cut} no se grabaron enteros y {malformed} están mal formados',
  'import.left-unread':
    'datagramas omitidos porque nada en ellos se puede evaluar: {datagrams}, de {senders} de los emisores (halfturn ' +
    'sessions import --keep-all los conserva)',
  'import.left-senders': 'datagramas omitidos de emisores posteriores a los primeros {most}: {datagrams}',
  'import.left-stations':
    'datagramas omitidos de emisores posteriores a los primeros {most}: {datagrams} (halfturn sessions import ' +
    '--most-stations permite más)',
  'import.left-untimed':
    'paquetes omitidos porque un reloj erróneo dice que se recibieron antes de 1970 o después de 2261: {packets}',
  'import.not-all-chosen': 'la grabación no se juzga por todo lo que se eligió mientras se volaba: {why}',
  'recording.not-as-chosen': 'la grabación no se juzga por lo que se eligió mientras se volaba: {why}',
  'import.left-because': '{note}: {why}',
  'import.no-format': 'no se reconoció ningún formato conocido',
  'import.few-samples': 'llegaron muy pocas muestras: {samples} de al menos {least}',

  'record.cannot-write': 'no se puede escribir nada ({why}); la grabación sigue sola cuando se arregle',
  'record.cannot-write-in': 'no se puede escribir nada en {folder} ({why}); la grabación sigue sola cuando se arregle',
  'record.no-room': 'no queda sitio en {folder}; haz algo de sitio y la grabación sigue sola',
  'record.may-not-write': 'no está permitido escribir en {folder}; permítelo y la grabación sigue sola',

  'session.unknown': 'no hay ninguna sesión {session} en el libro de vuelo',
  'session.none-yet': '{why}: aún no contiene ninguna',
  'session.most-like': '{why}; las más parecidas: {sessions}',
  'session.no-grading': 'la sesión {session} no tiene la evaluación {grading}; se cuentan desde 1',
  'session.stays': 'la sesión {session} está protegida, o continúa; se queda',
  'session.bare-folder': 'su carpeta no dice ni cuándo fue ni qué se voló',
  'logbook.empty': 'el libro de vuelo aún no tiene ninguna sesión',
  'logbook.missing':
    'no hay ningún libro de vuelo en {folder}: con esta carpeta de datos todavía no se ha volado nada; importa ' +
    'grabaciones con halfturn sessions import, o elige otra con --data',
  'session.away': 'la sesión {session} está en {store}, que no responde; inténtalo más tarde',
  'session.taken': 'otro nodo se hizo cargo de la sesión {session}; aquí no se cambió nada',
  'session.busy': 'otro nodo está cambiando la sesión {session} una y otra vez; inténtalo de nuevo',
  'logbook.mending': 'el libro de vuelo se está abriendo de nuevo, porque falló su disco: espera un momento',
  'filter.date': 'la fecha es {date}; debe ser año-mes-día, como 2031-05-04',
  'filter.after': 'after es {after}; debe ser next de la respuesta anterior',

  'remark.empty': 'la observación no tiene palabras',
  'remark.too-long': 'la observación tiene {letters} letras; debe tener {most} como máximo',
  'remark.leg': 'no hay tramo {leg}: los tramos se cuentan desde 1, 0 es toda la sesión',
  'remark.moment': 'no hay momento {moment}: se cuenta en segundos desde el principio de la grabación',
  'remark.full': 'la sesión {session} tiene {remarks} observaciones, tantas como se guardan con una',
  'remark.no-legs': 'la sesión {session} no tiene tramos; una observación sobre toda la sesión va en el tramo 0',
  'remark.no-leg': 'la sesión {session} no tiene tramo {leg}; el último es el tramo {last}',
  'remark.id': 'notes.json contiene una observación con el número {id}; se cuentan desde 1',
  'remark.twice': 'notes.json contiene dos observaciones con el número {id}; da otro a una de ellas',
  'remark.no-mark': 'la sesión {session} no tiene la marca {mark}',
  'remark.mark-worded': 'la marca {mark} ya tiene sus palabras; añade una observación en su momento',

  'differs.leg': 'tramo {leg}, {label}: {is}, era {was}',
  'verdict.met': 'cumplido',
  'verdict.near': 'casi',
  'verdict.missed': 'fallado',
  'verdict.not-measured': 'no medido',
  'differs.of-leg': 'tramo',
  'differs.of-maneuver': 'maniobra',
  'differs.of-standard': 'norma',
  'differs.of-outcome': 'desenlace',
  'differs.of-verdict': 'veredicto',
  'differs.of-score': 'puntos',
  'differs.of-grade': 'nota',
  'outcome.finished': 'terminado',
  'outcome.broken-off': 'abandonado',
  'outcome.knock-off': 'detenido por seguridad',
  'grade.unable': 'no apto',
  'grade.fair': 'suficiente',
  'grade.good': 'bien',
  'grade.excellent': 'excelente',
  'differs.found': 'encontrado',
  'differs.not-found': 'no encontrado',
  'differs.not-judged': 'no juzgado',
  'differs.none': 'ninguno',
  'differs.judged': '{verdict}, {value}',
  'differs.judged-in': '{verdict}, {value} ({wanted})',
  'differs.no-value': '{verdict}, sin valor',
  'differs.no-value-in': '{verdict}, sin valor ({wanted})',

  'choice.maneuver': 'no hay ficha de maniobra {name}; hay: {names}',
  'choice.standard': 'no hay norma {name}; hay: {names}',
  'choice.aircraft': 'no hay ficha de avión {name}; hay: {names}',

  'path.no-aircraft': 'no hay ninguna ficha de avión elegida',
  'path.apex': 'la velocidad en la cima es {apex}; debe ser mayor que 0 y menor que la de entrada de {entry}',
  'path.apex-stall':
    'la velocidad en la cima {apex} es menos de la mitad de la de pérdida de {stall}: revisa la ficha del avión',
  'path.too-slow':
    'la velocidad baja de la de la cima de {apex} incluso con el morro a {nose}: hace falta más potencia, menos ' +
    'alabeo o una cima más lenta',
  'path.nose-limit': 'un morro por encima de {nose} no se considera',
  'path.apex-far': 'la cima a {apex} no se alcanza: con el morro a {nose} la velocidad solo baja a {least}; {why}',
  'path.no-depth': 'ninguna profundidad de la mitad con morro bajo acaba a la altura de entrada',
  'path.stalls': 'entra en pérdida a {turn} de viraje: {airspeed} a {load}, velocidad de pérdida allí {stall}',
  'path.load': 'el factor de carga {load} a {turn} de viraje supera el límite de {most}',
  'path.entry-speed': 'la velocidad de entrada es {airspeed}; debe estar entre {least} y {most}',
  'path.altitude': 'la altitud de entrada es {altitude}; debe estar entre {least} y {most}',
  'path.nose': 'el morro está a {nose}; debe estar entre −75 y 75',
  'path.stall-speed':
    'la velocidad de pérdida es {stall}; debe ser 0 (desconocida) o menor que la de entrada de {entry}',
  'path.glide':
    'la fineza es {ratio} a {airspeed}; debe estar entre 0 (desconocida) y 80, a una velocidad entre 0 ' +
    '(desconocida) y {most}',
  'path.cannot':
    'no se puede volar más allá de {turn} de viraje: morro a {nose}, quedan {airspeed}: la sustentación allí no ' +
    'puede seguir el programa',
};
