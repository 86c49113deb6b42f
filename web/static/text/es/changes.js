// Spanish of what to change where channels are missing, by the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const changes = {
  'need.hard-deck': 'la altura mínima',
  'setup.for': 'Para {channels}: {setting}',
  'setup.row': 'en los ajustes del simulador, Data Output, marca la casilla de salida por red de la fila {row}.',
  'setup.property':
    'añade la línea <property> {name} </property> al archivo de salida del simulador, o usa ' +
    'simulators/jsbsim/halfturn.xml, que la tiene.',
  'setup.protocol':
    'arranca el simulador con el archivo de protocolo que trae Halfturn (halfturn simulators copy DIR lo escribe), ' +
    'que lo envía; o añádelo a tu propio archivo y mapa.',
  'setup.member': 'haz que el puente añada el miembro {name} ({unit}) a cada línea.',
  'setup.dataref': 'en los ajustes del simulador, Data Output, Dataref Read/Write, envía también {name}.',
  'setup.asked':
    'Halfturn pidió {name} y no recibió valor; carga otro avión, o activa en su lugar la fila {row} de la salida de ' +
    'datos.',
  'setup.replies':
    'estas respuestas no tienen sitio para eso. Arranca Halfturn con --subscribe y la dirección del simulador: pide ' +
    'todo lo que necesita.',
  'setup.native':
    'estos datos no tienen sitio para eso. Arranca el simulador con --generic y el archivo de protocolo que trae ' +
    'Halfturn (halfturn simulators copy DIR).',
  'setup.format':
    'lo que llega ({format}) no tiene sitio para eso, o el programa que lo envía lo omite; usa un puente que envíe ' +
    'líneas JSON (halfturn simulators copy DIR escribe uno).',

  'setup.rate-data-output':
    'Sube la frecuencia a 30 o 60 por segundo: en los ajustes del simulador, Data Output, mueve el control de ' +
    'frecuencia de red (paquetes por segundo).',
  'setup.rate-subscribe':
    'Sube la frecuencia a 30 o 60 por segundo: rate bajo [subscribe] en la configuración; el simulador no envía más ' +
    'rápido de lo que dibuja imágenes.',
  'setup.rate-output-file':
    'Sube la frecuencia a 30 o 60 por segundo: el atributo rate de <output> en el archivo de salida del simulador.',
  'setup.rate-option':
    'Sube la frecuencia a 30 o 60 por segundo: el número tras socket,out, en la opción --generic o --native-fdm del ' +
    'simulador; no envía más rápido de lo que dibuja imágenes.',
  'setup.rate-too-slow':
    'Esto llega con muy poca frecuencia para juzgar bien los puntos de control, y muchos programas así no pueden ' +
    'enviar más rápido; un puente que envía líneas JSON sí (halfturn simulators copy DIR escribe uno).',
  'setup.rate-sender': 'Sube la frecuencia a 30 o 60 por segundo: en el programa que envía.',

  'stream.ended': 'Ya no llega nada. ¿Sigue en marcha el simulador, y su salida activada?',
  'stream.paused': 'El simulador está en pausa. Hazlo correr.',
  'stream.bank-turned': 'el alabeo llega con el signo cambiado',
  'stream.pitch-turned': 'el cabeceo llega con el signo cambiado',
  'stream.both-turned': 'alabeo y cabeceo llegan con el signo cambiado',
};
