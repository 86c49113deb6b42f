// German of what a maneuver asks for and the aircraft may not do, and of why there is no reference path, by code.

/** @type {Readonly<Record<string, string>>} */
export const plan = {
  'path.power': 'die Leistung ist {power} und {added} mehr; muss zwischen 0 und 10 liegen, und zwischen \u22121 und 10',
  'path.no-power': 'keine Leistung bringt Höhe und Fahrt zugleich zurück',
  'path.no-level': 'eine waagerechte Kurve mit {bank} Querlage gibt es nicht: höchstens {most}',
  'heading.opposite': 'dem Gegenkurs',
  'heading.entry': 'dem Anfangskurs',
  'heading.new': 'dem neuen Kurs',
  'plan.bank-normal':
    'die Normalkategorie erlaubt {limit} Querlage; dieses Manöver verlangt {bank}',
  'plan.bank-utility':
    'die Nutzkategorie erlaubt {limit} Querlage; dieses Manöver verlangt {bank}',
  'plan.bank-limit':
    'das Flugzeug ist auf {limit} Querlage beschränkt; dieses Manöver verlangt {bank}',
  'plan.entry-over-limit':
    'die Anfangsfahrt von {entry} liegt über der Manöverfahrt von {limit}',
  'plan.nose-stated':
    'die höchste Nase von {nose} gibt die Flugzeugkarte vor; mit ihr fällt die Fahrt auf {speed}',
  'plan.begins-at':
    'die Bezugsbahn beginnt in {altitude} über dem Meer; {step} höher begonnen, dauert ein Teil etwa 1,5 % länger',
  'plan.parachutes':
    'ab {bank} Querlage oder {nose} Nase tragen alle Fallschirme, wenn nicht nur die Besatzung an Bord ist ' +
    '(14 CFR 91.307)',
};
