// Spanish of what a plan says, by the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const plan = {
  'path.power': 'la potencia es {power} y {added} más; debe estar entre 0 y 10, y entre −1 y 10',
  'path.no-power': 'ninguna potencia devuelve a la vez altura y velocidad',
  'path.no-level': 'no hay viraje nivelado con un alabeo de {bank}; debe ser {most} como máximo',
  'heading.opposite': 'el rumbo opuesto',
  'heading.entry': 'el rumbo de entrada',
  'heading.new': 'el rumbo nuevo',
  'plan.bank-normal': 'la categoría normal permite {limit} de alabeo; esta maniobra pide {bank}',
  'plan.bank-utility': 'la categoría utilitaria permite {limit} de alabeo; esta maniobra pide {bank}',
  'plan.bank-limit': 'el avión está limitado a {limit} de alabeo; esta maniobra pide {bank}',
  'plan.entry-over-limit': 'la velocidad de entrada de {entry} supera la velocidad de maniobra de {limit}',
  'plan.nose-stated': 'el morro más alto de {nose} es el de la ficha del avión; con él la velocidad baja a {speed}',
  'plan.begins-at':
    'la trayectoria de referencia empieza a {altitude} sobre el mar; empezado {step} más alto, un tramo dura cerca ' +
    'de 1,5 % más',
  'plan.parachutes':
    'por encima de {bank} de alabeo o {nose} de morro todos llevan paracaídas si no va a bordo solo la tripulación ' +
    '(14 CFR 91.307)',
};
