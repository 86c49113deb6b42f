// Spanish words of the set-up page.

/** @type {Readonly<Record<string, string>>} */
export const setup = {
  'What arrives': 'Qué llega',
  'How a simulator is set up': 'Cómo se configura un simulador',
  'HOST stands for the machine Halfturn runs on: 127.0.0.1 when it is the simulator’s own.':
    'HOST es el equipo en que corre Halfturn: 127.0.0.1 cuando es el mismo del simulador.',
  Channels: 'Canales',
  Channel: 'Canal',
  Value: 'Valor',
  Age: 'Edad',
  'For the card': 'Para la ficha',
  'Channels, and what the card {name} needs of them': 'Canales, y qué necesita de ellos la ficha {name}',
  'All that the card {name} needs is there.': 'Está todo lo que necesita la ficha {name}.',
  ['Nothing is heard yet. Let the simulator send to {where}, as the guides tell; this page shows it as soon as it ' +
    'comes.']:
    'Aún no se recibe nada. Haz que el simulador envíe a {where}, como dicen las guías; esta página lo muestra en ' +
    'cuanto llegue.',
  'One simulator is heard on {where}.': 'Se recibe un simulador en {where}.',
  '{n} simulators are heard on {where}.': 'Se reciben {n} simuladores en {where}.',
  ['Datagrams from {address} are refused: {senders} senders are followed already, and max-stations in the ' +
    'configuration allows no more. Stop a sender that is not needed, or raise it.']:
    'Se rechazan los datagramas de {address}: ya se siguen {senders} emisores, y max-stations en la configuración ' +
    'no permite más. Detén un emisor que no haga falta, o sube ese valor.',
  'Halfturn does not answer. Is it still running? This page comes back by itself when it is.':
    'Halfturn no responde. ¿Sigue en marcha? Esta página vuelve sola cuando lo esté.',
  'Port: {words}.': 'Puerto: {words}.',
  'What to expect: {words}': 'Qué esperar: {words}',
  'Files: {files}': 'Archivos: {files}',
  'sent twice': 'repetidos',
  late: 'tarde',
  empty: 'vacíos',
  'of an unknown format': 'de formato desconocido',
  'without labels': 'sin nombres de columna',
  'without a channel': 'sin canal',
  malformed: 'mal formados',
  'with a value that cannot be': 'con un valor imposible',
  'cut short': 'cortados',
  'with a wrong checksum': 'con suma de control errónea',
  'not text': 'que no son texto',
  'too long': 'demasiado largos',
  'of another format': 'de otro formato',
  other: 'otros',
  'Check on this page, or with: ': 'Compruébalo en esta página, o con: ',
  'Format not recognized, {datagrams} datagrams': 'Formato no reconocido, {datagrams} datagramas',
  '{format}, {sure}: {share} % of {datagrams} datagrams read':
    '{format}, {sure}: {share} % de {datagrams} datagramas leídos',
  '{rate} samples a second, jitter {jitter} ms, last datagram {age} s ago, timed by the simulator’s clock':
    '{rate} muestras por segundo, variación {jitter} ms, último datagrama hace {age} s, con la hora del reloj del ' +
    'simulador',
  '{rate} samples a second, jitter {jitter} ms, last datagram {age} s ago, timed by the time of receipt':
    '{rate} muestras por segundo, variación {jitter} ms, último datagrama hace {age} s, con la hora de recepción',
  'Dropped: {parts}': 'Descartados: {parts}',
  no: 'no',
  yes: 'sí',
  'ball widths': 'anchos de bola',
  sent: 'enviado',
  'worked out here': 'calculado aquí',
  missing: 'falta',
  'sent; not needed': 'enviado; no hace falta',
  '{state}; nothing works without': '{state}; sin él nada funciona',
  '{state}; for {checks}': '{state}; para {checks}',
  '; {n} values out of range': '; {n} valores fuera de rango',
  live: 'en directo',
  paused: 'en pausa',
  silent: 'en silencio',
  gone: 'ausente',
  replaying: 'reproducción',
  certain: 'seguro',
  likely: 'probable',
  doubtful: 'dudoso',
  'not recognized': 'no reconocido',
  // the network
  'A tablet beside it': 'Una tableta al lado',
  Connect: 'Conectar',
  'The code that stands on the page Set-up at the simulator':
    'El código que aparece en la página Preparación, en el simulador',
  'On the tablet or phone, point the camera at the picture, or type the address. It must be in the same network.':
    'En la tableta o el teléfono, apunta la cámara a la imagen o escribe la dirección. Debe estar en la misma red.',
  'The panel can stand on a tablet or a phone beside the simulator, in the same network.':
    'El panel puede estar en una tableta o un teléfono junto al simulador, en la misma red.',
  'It asks for this code, once: ': 'Pide este código, una vez: ',
  'Close it again': 'Cerrarla de nuevo',
  'Yes, open it to the network': 'Sí, abrirla a la red',
  'Use a tablet or a phone': 'Usar una tableta o un teléfono',
  'The configuration opens the pages to the network, without a code. Do so only in a network you trust.':
    'La configuración abre las páginas a la red, sin código. Hazlo solo en una red de confianza.',
  ['Everybody in your network who has the code can then see and steer this page. Open it only in a network you ' +
    'trust.']:
    'Quien tenga el código en tu red puede ver y manejar esta página. Ábrela solo en una red de confianza.',
  'Buttons and switches': 'Botones e interruptores',
  'Copy the request: {act}': 'Copiar la petición: {act}',
  'Copy the line: {act}': 'Copiar la línea: {act}',
  'A box with buttons and switches sends the request, or the line to the UDP port:':
    'Una caja de botones e interruptores envía la petición, o la línea al puerto UDP:',
  'Where several simulators send, the request ends in ?station=NAME and the line in NAME.':
    'Si envían varios simuladores, la petición termina en ?station=NOMBRE y la línea en NOMBRE.',
  'Choose aircraft and maneuver, or measure yours': 'Elegir avión y maniobra, o medir el tuyo',
  'QR code of {address}': 'Código QR de {address}',
};
