// Spanish of what is said about a stream, by the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const stream = {
  'advice.nothing-readable':
    'Nada de estos datagramas se puede leer. Envía columnas de texto con nombres, pares nombre=valor, filas DATA o ' +
    'líneas JSON; hay archivos de configuración listos en la carpeta simulators.',
  'advice.not-readable-as':
    'Los últimos datagramas no se pudieron leer como {format}. Reinicia la salida en el simulador.',
  'advice.channel-no-number':
    'El canal {channel} no es un número en estos datos, y sin él no se puede instruir nada. Envía un número de ' +
    '{least} a {most}.',
  'advice.channel-time':
    'El canal {channel} vale {value} en estos datos, lo cual no puede ser: debe ir de {least} a {most}. Envía ' +
    'segundos, contados desde cualquier momento.',
  'advice.channel-impossible':
    'El canal {channel} vale {value} en estos datos, lo cual no puede ser: debe ir de {least} a {most}. Corrige su ' +
    'unidad en el emisor, o en el mapa que lo lee.',
  'advice.too-few-samples':
    'Solo llegan {rate} muestras por segundo: muy pocas para evaluar. Haz que el simulador envíe al menos 5 por ' +
    'segundo, mejor 30.',
  'hole.own':
    'Datagramas de este puesto que este equipo perdió unos {time} después de comenzar la sesión: {own}. Llegaban ' +
    'más rápido de lo que los procesaba.',
  'hole.shared':
    'Datagramas de este puesto o de otros que este equipo perdió unos {time} después de comenzar la sesión: ' +
    '{shared}. Llegaban más rápido de lo que los leía.',
  'hole.both':
    'Datagramas de este puesto que este equipo perdió unos {time} después de comenzar la sesión: {own}. De este ' +
    'puesto o de otros: {shared} más. Llegaban más rápido de lo que los leía y procesaba.',
  'advice.only-beacon':
    'Esto es solo la baliza del simulador. Activa las filas 1, 3, 4, 8, 16, 17, 18, 20 y 25 de la salida de datos ' +
    '(DATA).',
  'advice.only-array':
    'Esto es un array JSON. Envía un objeto JSON por línea, en que cada valor lleve delante el nombre de su canal.',
  'advice.only-positions':
    'Esto son solo posiciones (NMEA 0183): sin actitud, sin velocidad. Usa el protocolo generic con el archivo ' +
    'halfturn.xml.',
  'advice.no-attitude-tablet':
    'Llega posición o tráfico, pero no actitud (XATT), sin la cual no se puede instruir nada. Activa la actitud en ' +
    'el programa que envía a tabletas.',
  'advice.no-attitude-rows':
    'A los datos DATA les falta la fila 17 (cabeceo, alabeo, rumbos), sin la cual no se puede instruir nada. ' +
    'Actívala en la salida de datos del simulador.',
  'advice.no-attitude-datarefs':
    'Los datarefs enviados no traen actitud (true_psi, true_theta, true_phi), sin la cual no se puede instruir ' +
    'nada. Envíalos, o activa las filas 1, 3, 4, 8, 16, 17, 18, 20 y 25 de la salida de datos (DATA).',
  'advice.no-attitude-gdl':
    'Estos datos GDL 90 no traen actitud con rumbo (mensaje 0x65 o 0x4C), sin la cual no se puede instruir nada. ' +
    'Activa AHRS en el programa que los envía.',
  'advice.no-attitude-mavlink':
    'Estos datos MAVLink no traen el mensaje ATTITUDE, sin el cual no se puede instruir nada. Pide una frecuencia ' +
    'mayor (parámetro SR0_EXTRA1 o similar).',
  'advice.no-entity':
    'Nada de lo que se envía aquí trata de una entidad que se pueda seguir. Envía PDU Entity State del avión propio ' +
    'del simulador.',
  'advice.columns-in-order':
    'Los datos tienen {columns} columnas, el mapa {map} nombra {listed} en su orden. Corrige el mapa, o da otro con ' +
    '--map FILE.',
  'advice.columns-of-map':
    'Las {columns} columnas de los datos no encajan en el mapa {map}. Corrige el mapa, o da otro con --map FILE.',
  'advice.columns-unlike':
    'Los datos tienen {columns} columnas sin nombres; un mapa conocido tiene otras tantas, pero los valores no lo ' +
    'parecen. Reinicia la salida del simulador para que envíe los nombres, o describe las columnas en un archivo de ' +
    'mapa y dalo con --map FILE.',
  'advice.columns-unknown':
    'Los datos tienen {columns} columnas sin nombres, y ningún mapa conocido tiene tantas. Reinicia la salida del ' +
    'simulador para que envíe los nombres, o describe las columnas en un archivo de mapa y dalo con --map FILE.',
  'advice.bank-reversed':
    'Alabeo y viraje se contradicen: este emisor da el alabeo izquierdo como positivo. Pon la línea bank-sign = ' +
    '"reversed" en el archivo de configuración y arranca Halfturn de nuevo; o bank-sign = "auto", que lo averigua ' +
    'solo.',
  'advice.bank-as-sent':
    'Alabeo y viraje se contradicen: bank-sign es "reversed", pero este emisor da el alabeo derecho como positivo. ' +
    'Pon la línea bank-sign = "as-sent" en el archivo de configuración y arranca Halfturn de nuevo.',
  'advice.pitch-reversed':
    'Cabeceo y velocidad vertical se contradicen: este emisor da el morro abajo como positivo. Pon la línea ' +
    'pitch-sign = "reversed" en el archivo de configuración y arranca Halfturn de nuevo; o pitch-sign = "auto", que ' +
    'lo averigua solo.',
  'advice.pitch-as-sent':
    'Cabeceo y velocidad vertical se contradicen: pitch-sign es "reversed", pero este emisor da el morro arriba ' +
    'como positivo. Pon la línea pitch-sign = "as-sent" en el archivo de configuración y arranca Halfturn de nuevo.',
  'detail.tablet':
    'actitud y posición unidas por la hora de recepción; sin velocidad; la derrota puede ser el rumbo, según el emisor',
  'detail.mavlink': 'la velocidad es indicada o equivalente, según el autopiloto; sin altura sobre el terreno',

  'detail.native':
    'velocidades angulares a partir de las de Euler; sin velocidad verdadera, sin gases, sin reloj; resbale y ' +
    'revoluciones solo si alguna vez son distintos de 0',
  'detail.datarefs': 'valores de datarefs sueltos, con 32 bits',
  'detail.ellipsoid':
    'la altitud es la altura sobre el elipsoide, distinta del nivel del mar hasta en {most}; sin velocidad',
  'detail.gdl-ellipsoid':
    'la altitud es la altura sobre el elipsoide, distinta del nivel del mar hasta en {most}; actitud por el mensaje ' +
    '{message}',
  'detail.gdl-pressure':
    'la altitud es la de presión, que en la mayoría de simuladores es la verdadera; actitud por el mensaje {message}',
  'detail.gdl-sea': 'la altitud es sobre el nivel del mar; actitud por el mensaje {message}',
  'detail.rows-old-told': 'la fila 16 es cabeceo, alabeo, guiñada en rad/s (versiones 10 y 11), según lo indicado',
  'detail.rows-old-found':
    'la fila 16 es cabeceo, alabeo, guiñada en rad/s (versiones 10 y 11), por el cambio de actitud',
  'detail.rows-new-told': 'la fila 16 es alabeo, cabeceo, guiñada en °/s (versión 12), según lo indicado',
  'detail.rows-new-found': 'la fila 16 es alabeo, cabeceo, guiñada en °/s (versión 12), por el cambio de actitud',
  'detail.rows-unknown': 'fila 16: disposición aún no reconocida, sus velocidades no se usan',
  'jump.clock-back': 'el reloj retrocedió',
  'jump.receipt-back': 'el reloj de recepción retrocedió',

  'jump.clock-appeared': 'apareció en los datos el reloj del simulador',
  'jump.clock-gone': 'ya no se envía el reloj del simulador',
  'jump.gap': 'hueco de {gap} en los datos',
  'jump.attitude': 'la actitud saltó',
  'jump.altitude': 'la altitud saltó',
  'jump.airspeed': 'la velocidad saltó',
  'jump.position': 'la posición saltó',
  'jump.pace':
    'el tiempo del simulador corrió más deprisa o más despacio que el reloj; pon su ritmo a 1 y empieza de nuevo',
  'jump.format': 'el emisor cambió de formato',
  'jump.bank-turned': 'el alabeo llegaba con el otro signo y se corrige',
  'jump.pitch-turned': 'el cabeceo llegaba con el otro signo y se corrige',
};
