// German of what a maneuver asks for and the aircraft may not do, by code.

/** @type {Readonly<Record<string, string>>} */
export const plan = {
  'plan.bank-normal':
    'die Normalkategorie erlaubt {limit} Querneigung; diese Figur verlangt {bank}',
  'plan.bank-utility':
    'die Nutzkategorie erlaubt {limit} Querneigung; diese Figur verlangt {bank}',
  'plan.bank-limit':
    'das Flugzeug ist auf {limit} Querneigung beschränkt; diese Figur verlangt {bank}',
  'plan.entry-over-limit':
    'die Anfangsgeschwindigkeit von {entry} liegt über der Manövergeschwindigkeit von {limit}',
  'plan.nose-stated':
    'die höchste Nase von {nose} gibt die Flugzeugkarte vor; mit ihr fällt die Geschwindigkeit auf {speed}',
  'plan.parachutes':
    'ab {bank} Querneigung oder {nose} Nase tragen alle Fallschirme, wenn nicht nur die Besatzung an Bord ist ' +
    '(14 CFR 91.307)',
};
