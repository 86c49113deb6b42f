// Spanish of sharing a station with a school: the sentences of the server by their codes, and the words of the panel.

/** @type {Readonly<Record<string, string>>} */
export const share = {
  'share.key-missing': 'un enlace necesita la clave de un puesto, que crea halfturn stations add',
  'share.key-refused': 'la clave del puesto no se conoce aquí o fue retirada; pide una nueva a la escuela',
  'share.key-elsewhere': 'la clave de {station} se usa ahora en otro lugar; da a cada simulador una clave propia',
  'share.name-taken': 'en la escuela ya vuela un simulador como {station}; dale allí otro nombre, o páralo',
  'share.version':
    'el enlace es de la versión {version} y tiene que ser {needed}: usa el mismo Halfturn en los dos extremos',
  'share.malformed': 'no se entiende lo enviado: {why}',
  'share.too-long': 'la sesión es más larga que {most} y no se recibe más de ella',
  'share.no-link': 'ahora no hay enlace con {station}; inténtalo de nuevo cuando vuelva',
  'share.left':
    'El Halfturn de casa no volvió y la sesión se terminó sin él; faltan al final {missing} que se vieron. Se ' +
    'tomarán cuando vuelva.',
  'share.left-revoked':
    'La clave del puesto fue retirada y la sesión se terminó sin el Halfturn de casa; faltan al final {missing} que ' +
    'se vieron.',
  'share.nothing-flown': 'en casa aún no se ha volado nada en el puesto',
};

/** @type {Readonly<Record<string, string>>} */
export const sharing = {
  'Shared with {school} as {station}': 'Compartido con {school} como {station}',
  'Shared with {school}: no link now, what is flown is sent later':
    'Compartido con {school}: ahora no hay enlace, lo que se vuela se envía después',
  'Not shared with {school}: {why}': 'No se comparte con {school}: {why}',
  'Flown at another Halfturn': 'Se vuela en otro Halfturn',
  'Flown at another Halfturn: no link now': 'Se vuela en otro Halfturn: ahora no hay enlace',
  '{seconds} s of the recording are still to be sent': 'faltan por enviar {seconds} s de la grabación',
  '{seconds} s behind': '{seconds} s de retraso',
  'the clocks differ by {seconds} s': 'los relojes difieren en {seconds} s',
};
