// Spanish of what is read in flight: what is wrong, what is left, and what waits.

/** @type {Readonly<Record<string, string>>} */
export const cockpit = {
  now: 'ahora',
  up: 'arriba',
  down: 'abajo',
  'allowed here {range}': 'aquí se permite {range}',
  '{by} too steep': '{by} de más',
  '{by} too shallow': '{by} de menos',
  '{by} too high': '{by} demasiado alto',
  '{by} too low': '{by} demasiado bajo',
  '{by} too fast': '{by} demasiado rápido',
  '{by} too slow': '{by} demasiado lento',
  'Over the stall': 'Sobre la pérdida',
  'Over the hard deck': 'Sobre la altura mínima',
  closing: 'baja',
  'stays {until}': 'sigue {until}',
  'Cues wait {until}.': 'Los avisos esperan {until}.',
  'until the bank is back inside its limit': 'hasta que el alabeo vuelva a estar dentro de su límite',
  'until there is speed over the stall again': 'hasta que vuelva a haber velocidad sobre la pérdida',
  'until the flight is above the hard deck again': 'hasta que el vuelo vuelva a estar sobre la altura mínima',
  'until the load is back inside its limits': 'hasta que el factor de carga vuelva a estar dentro de sus límites',
  'until the speed is back under its limit': 'hasta que la velocidad vuelva a estar por debajo de su límite',

  // before a leg
  'Ready, speed not known': 'Listo, velocidad desconocida',
  'Climb: {value}, want {want}': 'Asciende: {value}, debe ser {want}',
  'Level the wings: {value}': 'Nivela las alas: {value}',
  'Stop the climb: {value}': 'Detén el ascenso: {value}',
  'Stop the descent: {value}': 'Detén el descenso: {value}',
  'Hold the speed steady: {want}': 'Mantén la velocidad: {want}',
  'Slow down: {value}, want {want}': 'Más lento: {value}, debe ser {want}',
  'Speed up: {value}, want {want}': 'Más rápido: {value}, debe ser {want}',
  'Center the ball: {value}': 'Centra la bola: {value}',
  'Turn onto the line: {value} off': 'Vira hacia la línea: {value} de desvío',
  'Waiting for the first data': 'Esperando los primeros datos',
  'Looking at the set-up': 'Observando la preparación',
  'flown in: {aircraft}': 'volado con: {aircraft}',

  // hands on the stick
  'Keys and buttons': 'Teclas y botones',
  'A joystick is seen once one of its buttons was pressed here.':
    'Una palanca de mando se detecta en cuanto se pulsa aquí uno de sus botones.',
  'A button box can send POST /do/mark, or the line halfturn mark to the UDP port.':
    'Una caja de botones puede enviar POST /do/mark, o la línea halfturn mark al puerto UDP.',
  'press a button': 'pulsa un botón',
  'choose a button': 'elegir un botón',
  '{act}: no button': '{act}: sin botón',
  'Mark the moment': 'Marcar el momento',
  'Sound on or off': 'Activar o quitar el sonido',
  'Next maneuver': 'Maniobra siguiente',
  'Who flies: the next name': 'Quién vuela: el nombre siguiente',
  'Show the keys': 'Mostrar las teclas',
  'Sound off': 'Sonido desactivado',
  Marked: 'Marcado',
  'Marked at {turn}°': 'Marcado a {turn}°',
};
