// German of what published tests ask for.

/** @type {Readonly<Record<string, string>>} */
export const elements = {
  errors: 'Fehler',
  look: 'Blick',
  toward: 'zum Manöver',
  'S5 altitude': 'S5 Höhe',
  'S5 airspeed': 'S5 Fahrt',
  'S5 bank': 'S5 Querlage',
  'S5 roll-out': 'S5 Ausleiten',
  'S7 heading': 'S7 Kurs',
  'S7 airspeed': 'S7 Fahrt',
  'area cleared': 'Luftraum frei geschaut',
  'entry speed of the maker, else not above the maneuvering speed':
    'Anfangsfahrt des Herstellers, sonst nicht über der Manövergeschwindigkeit',
  'coordinated turn of 360°, bank about 50°': 'koordinierte Kurve um 360°, Querlage etwa 50°',
  'then the other way': 'dann zur anderen Seite',
  'within 100 ft of the entry': 'bis auf 100 ft wie am Anfang',
  'within 10 kt of the entry': 'bis auf 10 kt wie am Anfang',
  'within 5° of 50°': 'bis auf 5° bei 50°',
  'within 10° of the entry heading': 'bis auf 10° auf dem Anfangskurs',
  'stall near the ground': 'Überziehen in Bodennähe',
  'uncoordinated flight': 'unkoordinierter Flug',
  'attention, collision, distraction': 'Aufmerksamkeit, Zusammenstoß, Ablenkung',
  'coordinated turn of 360°, bank about 45°': 'koordinierte Kurve um 360°, Querlage etwa 45°',
  'the other way, as the evaluator says': 'zur anderen Seite, wie der Prüfer sagt',
  'within 5° of 45°': 'bis auf 5° bei 45°',
  'no part below 1,500 ft above the ground': 'nie unter 1.500 ft über Grund',
  'entry configuration, power and airspeed': 'Konfiguration, Leistung und Fahrt am Anfang',
  'bank about 30°': 'Querlage etwa 30°',
  'power and pitch together; coordinated climb to 90°, bank constant, airspeed always falling':
    'Leistung und Nase zusammen; koordiniert steigen bis 90°, Querlage gleich, Fahrt immer abnehmend',
  'roll-out from 90° to 180° at a constant rate, power and pitch attitude held':
    'Ausleiten von 90° bis 180° gleichmäßig, Leistung und Nase gehalten',
  'wings level at 180°, within 10°': 'Flügel waagerecht bei 180°, bis auf 10°',
  'just above the stall, held for a moment, no stall':
    'knapp über dem Überziehen, einen Augenblick gehalten, nicht überzogen',
  'back to straight and level with the least loss of height':
    'zurück in den Geradeausflug mit dem geringsten Höhenverlust',
  'energy management': 'Umgang mit der Energie',
  'rate and radius of turn in a confined area': 'Drehrate und Radius auf engem Raum',
  'recommended entry configuration, power and airspeed': 'empfohlene Konfiguration, Leistung und Fahrt am Anfang',
  'coordinated throughout': 'durchweg koordiniert',
  'steepest bank about 30°': 'größte Querlage etwa 30°',
  'pitch, roll rate and airspeed always changing': 'Nase, Rollrate und Fahrt immer in Änderung',
  'altitude at 180° within 100 ft of the entry': 'Höhe bei 180° bis auf 100 ft wie am Anfang',
  'airspeed at 180° within 10 kt of the entry': 'Fahrt bei 180° bis auf 10 kt wie am Anfang',
  'heading at 180° within 10°': 'Kurs bei 180° bis auf 10°',
  'symmetrical loops, as many as told, then straight and level':
    'gleichmäßige Bögen, so viele wie verlangt, dann geradeaus',
  'stall, also accelerated, near the ground': 'Überziehen, auch mit Last, in Bodennähe',
  'at least 45°': 'mindestens 45°',
  '180° in all, two opposite 90s are enough': '180° im Ganzen, zwei entgegengesetzte von 90° genügen',
  'the last one toward the maneuver': 'die letzte zur Seite des Manövers',
  'a look around': 'ein Blick ringsum',
  'height wrong after it': 'falsche Höhe danach',
  'only clearing turns show in a stream, not the look around':
    'im Datenstrom zeigen sich nur Kontrollkurven, nicht der Blick',
  'the speed is that of the aircraft card, whose maneuvering speed a stream does not show':
    'die Fahrt ist die der Flugzeugkarte, deren Manövergeschwindigkeit kein Datenstrom zeigt',
  'the hard deck is a limit that ends the leg; what the pilot weighs does not show':
    'die Mindesthöhe ist eine Grenze, die den Teil beendet; was der Pilot abwägt, zeigt sich nicht',
  'nothing of them is in a stream': 'davon ist nichts im Datenstrom',
  'the hard deck: a limit that ends the leg, not a check':
    'die Mindesthöhe: eine Grenze, die den Teil beendet, kein Prüfpunkt',
  'flaps and gear are in few streams; the speed is that of the aircraft card':
    'Klappen und Fahrwerk sind in wenigen Datenströmen; die Fahrt ist die der Flugzeugkarte',
  'that power and pitch come together is judged by what follows from it':
    'dass Leistung und Nase zusammen kommen, wird an dem gemessen, was daraus folgt',
  'the height gained is shown and not counted: no number is published':
    'der Höhengewinn wird gezeigt und zählt nicht: keine Zahl ist veröffentlicht',
  'the area is in no stream': 'der Raum ist in keinem Datenstrom',
  'the level flight that follows is no part of a leg': 'der Geradeausflug danach gehört zu keinem Teil',
  'judged by what it comes to at each 180°': 'gemessen an dem, was bei jeden 180° herauskommt',
  'known when the maneuver begins: the check clearing-side of its card':
    'bekannt, wenn das Manöver beginnt: der Prüfpunkt clearing-side seiner Karte',
  'no stream shows where the pilot looks': 'kein Datenstrom zeigt, wohin der Pilot schaut',
  banks: 'Querlagen',
  entry: 'Beginn',
  sides: 'Seiten',
  turns: 'Kurven',
  'airspeed held within 10 kt, with power as the bank takes it':
    'Fahrt bis auf 10 kt gehalten, Leistung wie die Querlage sie braucht',
  'any heading will do here; cruise is the airspeed at the entry':
    'hier gilt jeder Kurs; Reisefahrt ist die Fahrt am Anfang',
  'from cruise on a cardinal heading': 'aus dem Reiseflug auf einem Hauptkurs',
  'height held within 100 ft': 'Höhe bis auf 100 ft gehalten',
  'no power for speed, bank drift, height loss, poor trim, no lookout':
    'keine Leistung für die Fahrt, wandernde Querlage, Höhenverlust, schlecht getrimmt, kein Blick',
  'through 30°, 90° and 180°, the roll-out led by a third of the bank; within 10°':
    'um 30°, 90° und 180°, Ausleiten um ein Drittel der Querlage früher; bis auf 10°',
  'to alternating sides': 'abwechselnd zu beiden Seiten',
  'trim and lookout do not show in a stream': 'Trimmung und Blick zeigt kein Strom',
  'two turns each at 15°, 30° and 45° of bank': 'je zwei Kurven mit 15°, 30° und 45° Querlage',
  'S6 airspeed': 'S6 Fahrt',
  'S6 floor': 'S6 Mindesthöhe',
  'S6 roll-out': 'S6 Ausleiten',
  pylons: 'Pylone',
  'a turn about each of two pylons, to opposite sides':
    'eine Kurve um jeden von zwei Pylonen, zu beiden Seiten',
  'attention shared, coordinated': 'Aufmerksamkeit geteilt, koordiniert',
  'bank at most 40°': 'Querlage höchstens 40°',
  'circle corrected for wind, bank at most 60° at the steepest place':
    'Kreis nach dem Wind berichtigt, Querlage höchstens 60° an der steilsten Stelle',
  'constant radius about a point on the ground, bank at most 60°':
    'gleicher Radius um einen Punkt am Boden, Querlage höchstens 60°',
  'coordinated, attention shared': 'koordiniert, Aufmerksamkeit geteilt',
  'effects of wind': 'Wirkung des Windes',
  'emergency landing in reach': 'Notlandung in Reichweite',
  'entry in direction, place, height and airspeed': 'Beginn nach Richtung, Ort, Höhe und Fahrt',
  'height for at least three turns of 360°': 'Höhe für mindestens drei Kreise von 360°',
  'limits of airframe and airspeed': 'Grenzen von Zelle und Fahrt',
  'line of sight kept on the pylon by smooth, continuous corrections':
    'Sichtlinie durch ruhige, stetige Korrekturen auf dem Pylon gehalten',
  'load and never-exceed speed are limits that end the leg, not checks':
    'Last und Höchstfahrt sind Grenzen, die den Teil beenden, keine Prüfungen',
  'no stream shows what lies below': 'kein Strom zeigt, was unten liegt',
  'pivotal altitude found': 'Pivothöhe gefunden',
  'pylon held by pivotal altitude, without slip or skid':
    'Pylon durch die Pivothöhe gehalten, ohne Schieben oder Schmieren',
  'pylons that allow a straight and level leg between them':
    'Pylone mit einem geraden Stück in gleicher Höhe dazwischen',
  'toward an object or heading, within 10°': 'auf ein Ziel oder einen Kurs, bis auf 10°',
  'where attention goes does not show in a stream': 'worauf geachtet wird, zeigt kein Strom',
  'within 10 kt of the airspeed stated': 'bis auf 10 kt bei der genannten Fahrt',
  'no number is published': 'eine Zahl ist nicht veröffentlicht',
};
