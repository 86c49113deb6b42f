// Spanish of what is wrong with a name, a line or a choice, by the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const choices = {
  'name.too-long': 'el nombre tiene {letters} letras; debe tener {most} como máximo',
  'name.station': 'el nombre del puesto es {name}; debe tener de 1 a {most} letras sin barra, como Seat 3',
  'name.encoding': 'el nombre {name} no está en UTF-8: escríbelo otra vez',
  'name.hidden': 'el nombre {name} contiene el carácter {character}, que no se ve: escribe el nombre sin él',
  'text.encoding': 'el texto no está en UTF-8: escríbelo otra vez',
  'text.hidden': 'el texto contiene el carácter {character}, que no se ve: escríbelo sin él',
  'spoken.empty': 'no hay nada que decir: escribe lo que el piloto debe oír',
  'spoken.too-long':
    'el texto tiene {words} palabras y {letters} letras; caben como mucho {most} palabras y {longest} letras',

  'line.heading': 'el rumbo es {heading}; debe estar entre 0 y 360',
  'line.unknown': 'el rumbo de ahora aún no se conoce: espera los datos, o elige uno de 0 a 360',
  'line.distance': 'el punto de referencia está a {distance}; debe estar entre {least} y {most}',
  'about.where': 'where es {where}; debe ser here, left o right',
  'about.unknown': 'no hay posición con rumbo verdadero desde la que tomar el punto: espera los datos',
  'about.distance': 'el punto está a {distance} del ala; debe estar entre {least} y {most}',
  'line.side': 'side es {side}; debe ser right, left o vacío',

  'station.mute': 'el puesto {station} no responde; inténtalo de nuevo',
  'command.unsure':
    'no se sabe si el puesto {station} conserva esto: un servidor o el almacén del clúster no respondió a ' +
    'tiempo; mira si está antes de hacerlo otra vez',
  'station.gone': 'el puesto {station} ya no está',
  'station.prompts-unknown': 'prompts es {prompts}; debe ser card, all, fade u off',
  'station.nothing-flown': 'en {station} aún no se ha volado nada; no hay sesión que terminar',
  'station.in-leg': 'en {station} se está volando un tramo; cede el mando cuando termine',
  'station.no-demonstration': 'este servidor no vuela demostraciones',
  'station.private': 'el puesto {station} es privado: su piloto no lo comparte con nadie ahora',
  'station.private-by-pilot': 'solo el piloto del puesto {station} puede hacerlo privado o volver a compartirlo',
};
