// The Spanish sentences of finding simulators, measuring aircraft, and demonstrations, by their codes.

/** @type {Readonly<Record<string, string>>} */
export const measure = {
  'measure.lacks': 'los datos no traen {channel}, así que esto no se puede medir',
  'measure.ground': 'el avión está en tierra: despega y asciende primero',
  'measure.bank': 'alabeo {bank}: mantén las alas niveladas, con una tolerancia de {limit}',
  'measure.climb': '{climb}: mantén la altura, con una tolerancia de {limit}',
  'measure.speed': 'la velocidad cambia: mantenla con una tolerancia de {limit}',
  'measure.load':
    'el factor de carga marca {load} en vuelo nivelado; debe estar cerca de {one}: lo que envía el simulador para ' +
    'él es erróneo',
  'measure.fast': '{speed}: quita potencia, mantén la altura y deja bajar la velocidad hasta el aviso de pérdida',
  'measure.slow':
    '{speed} es demasiado lento para empezar una maniobra con una velocidad de pérdida de {stall}: vuela al menos a ' +
    '{least}',
  'measure.no-stall': 'aún no hubo pérdida ni aviso de pérdida; lo más lento fueron {speed}',
  'measure.nothing': 'en {station} no se mide nada; empieza de nuevo',
  'measure.not-done': 'aún no hay velocidad de entrada, y una ficha la necesita',
  'measure.name': 'da al avión un nombre de 1 a 40 caracteres',
  'measure.taken': 'ya existe un avión {name}; usa otro nombre',
  'measure.bad': 'con estos números no sale una ficha: {why}; mide de nuevo',
  'demonstration.maneuver': 'el avión incorporado no puede volar {maneuver}',
  'demonstration.fixed': 'esto es una demostración; termínala y vuela tú para cambiarlo',
  'find.off':
    'aquí no se pregunta a ningún simulador; pon la clave nearby bajo [subscribe] de la configuración en true',
  'find.full': 'ya se pregunta a {most} simuladores; deja primero de preguntar a uno',
  'find.public': 'no es una dirección de este equipo ni de una red privada; nómbrala con --subscribe',
  'find.address': '{address} no es la dirección de un simulador; dala en números, como 192.168.1.20',
  'find.port': 'el puerto UDP {port} no se puede abrir a la red: {why}',
  'guide.no-file': 'la guía no tiene ningún archivo {file}',
};
