// German of the cards: titles, summaries, parts of the turn, what to see, checks.

/** @type {Readonly<Record<string, string>>} */
export const cards = {
  // maneuvers
  ['A climbing half turn: bank and nose grow together to 60° of bank at 90°, and the bank comes off at the ' +
    'rate it came.']:
    'Eine steigende halbe Kurve: Querlage und Nase wachsen zusammen bis 60° Querlage bei 90°, und die ' +
    'Querlage geht so schnell heraus, wie sie kam.',
  'A climbing half turn: bank held to 90° while the nose rises, then the nose held while the bank comes off.':
    'Eine steigende halbe Kurve: Querlage bis 90° gehalten, während die Nase steigt, dann die Nase gehalten, ' +
    'während die Querlage herausgeht.',
  'A climbing turn through 90° and a descending one through 90 more, back at entry speed and height the other way.':
    'Eine steigende Kurve über 90° und eine sinkende über weitere 90, zurück auf Fahrt und Höhe des Beginns ' +
    'in der Gegenrichtung.',
  'Chandelle, bank growing': 'Chandelle, wachsende Querlage',
  'Chandelle, constant bank': 'Chandelle, feste Querlage',
  'Clearing turns': 'Kontrollkurven zur Luftraumbeobachtung',
  'Lazy eight': 'Lazy Eight',
  'Once around at 45° of bank, height and speed held, then once around the other way.':
    'Einmal herum mit 45° Querlage, Höhe und Fahrt gehalten, dann einmal andersherum.',
  'Once around at 50° of bank, height and speed held, then once around the other way.':
    'Einmal herum mit 50° Querlage, Höhe und Fahrt gehalten, dann einmal andersherum.',
  'Steep turn, 45° of bank': 'Steilkurve, 45° Querlage',
  'Steep turn, 50° of bank': 'Steilkurve, 50° Querlage',
  ['Two half turns in opposite directions, each a slow climb to 90° and a slow descent back to entry speed ' +
    'and height.']:
    'Zwei halbe Kurven nach beiden Seiten, jede ein langsames Steigen bis 90° und ein langsames Sinken ' +
    'zurück auf Fahrt und Höhe des Beginns.',
  ['Level turns at 15°, 30° and 45° of bank through 30°, 90° and 180°, left and right, height and ' +
    'airspeed held.']:
    'Kurven in gleicher Höhe mit 15°, 30° und 45° Querlage um 30°, 90° und 180°, links und rechts, ' +
    'Höhe und Fahrt gehalten.',
  'A turn about each of two pylons, left and right, each kept on the wing by flying at the pivotal altitude.':
    'Eine Kurve um jeden von zwei Pylonen, links und rechts, jeder durch Fliegen in der Pivothöhe auf ' +
    'der Fläche gehalten.',
  'Eights on pylons': 'Achten um Pylone',
  'Steep spiral': 'Steilspirale',
  'Three gliding turns about a point on the ground, distance and airspeed held, out on the first heading.':
    'Drei Kreise abwärts ohne Leistung um einen Punkt am Boden, Abstand und Fahrt gehalten, heraus ' +
    'auf dem ersten Kurs.',
  'Turn pattern': 'Kurvenprogramm',
  'Two level turns of 90° in opposite directions before a maneuver, with eyes outside: is the area clear?':
    'Zwei Kurven von 90° in gleicher Höhe nach beiden Seiten vor einem Manöver, Blick nach draußen: ist der ' +
    'Raum frei?',
  'Whichever is flown': 'Was geflogen wird',
  'Wing-over': 'Wing-over',

  // standards
  'Bands half as wide again: the shape first, the numbers later.':
    'Bänder um die Hälfte breiter: erst die Form, dann die Zahlen.',
  'Check flight': 'Prüfungsflug',
  Course: 'Lehrgang',
  Practice: 'Übung',
  'The published test, element by element. Wing-over and traditional chandelle have none.':
    'Die veröffentlichte Prüfung, Punkt für Punkt. Für Wing-over und klassische Chandelle gibt es keine.',
  "The trade's usual tolerances, as written on the maneuver cards.":
    'Die üblichen Toleranzen, wie sie auf den Manöverkarten stehen.',
  check: 'Prüfungsflug',
  course: 'Lehrgang',
  practice: 'Übung',

  // aircraft
  '1950 rpm': '1950 U/min',
  'Light single': 'Leichte Einmotorige',
  'Radial-engine trainer': 'Schulflugzeug mit Sternmotor',
  'Turboprop trainer': 'Turboprop-Schulflugzeug',
  'as set before entry': 'wie vor Beginn gesetzt',
  'climb power': 'Steigleistung',

  // cautions
  'For simulator practice only. Never for use in an aircraft, and not for navigation.':
    'Nur zum Üben im Simulator. Nie in einem Flugzeug verwenden und nicht zur Navigation.',
  'It gives no credit toward a license.': 'Es wird nicht auf eine Lizenz angerechnet.',
  "The aircraft's handbook, local rules and a licensed instructor come first.":
    'Flughandbuch, örtliche Regeln und ein zugelassener Fluglehrer gehen vor.',

  // phases
  'back to level': 'zurück in den Geradeausflug',
  'bank and nose growing': 'Querlage und Nase wachsen',
  'bank set, nose rising': 'Querlage steht, Nase steigt',
  'climbing, bank growing': 'steigend, Querlage wächst',
  'descending, bank coming off': 'sinkend, Querlage geht heraus',
  'look around': 'umschauen',
  'nose down, roll out': 'Nase ab, ausleiten',
  'nose held up, bank off': 'Nase oben gehalten, Querlage heraus',
  'nose held, bank off': 'Nase gehalten, Querlage heraus',
  'over the top': 'über den Scheitel',
  'pull and roll in': 'ziehen und einleiten',
  'pull out': 'abfangen',
  'roll in': 'einleiten',
  'roll out': 'ausleiten',
  'first turn': 'erster Kreis',
  'second turn': 'zweiter Kreis',
  'third turn': 'dritter Kreis',
  'pylon on the wing': 'Pylon auf der Fläche',
  'the turn': 'die Kurve',

  // checkpoints
  'bank 30°, nose rising': '30° Querlage, Nase steigt',
  'bank 45°, height held': '45° Querlage, Höhe gehalten',
  'bank 50°, height held': '50° Querlage, Höhe gehalten',
  'bank and nose both growing': 'Querlage und Nase wachsen',
  'bank half off, nose held': 'Querlage halb heraus, Nase gehalten',
  'bank steepest, nose still rising': 'größte Querlage, Nase steigt noch',
  'entry speed and height, into the other turn': 'Fahrt und Höhe wie zu Beginn, in die andere Kurve',
  'halfway, height and speed held': 'halb herum, Höhe und Fahrt gehalten',
  'halfway: look behind the wing': 'halb herum: hinter die Fläche schauen',
  'highest nose, bank 15° and growing': 'Nase am höchsten, 15° Querlage und wachsend',
  'highest nose, bank growing': 'Nase am höchsten, Querlage wächst',
  'lowest nose, bank 15° and coming off': 'Nase am tiefsten, 15° Querlage und abnehmend',
  'nose highest, begin the roll-out': 'Nase am höchsten, Ausleiten beginnen',
  'nose through level, bank steepest, slowest': 'Nase durch den Horizont, größte Querlage, am langsamsten',
  'nose through the horizon, bank steepest': 'Nase durch den Horizont, größte Querlage',
  'roll-out under way, nose high': 'Ausleiten läuft, Nase hoch',
  'rolling out, nose lowest': 'ausleitend, Nase am tiefsten',
  'halfway round, pylon on the wing': 'halb herum, Pylon auf der Fläche',
  'same distance, same airspeed': 'gleicher Abstand, gleiche Fahrt',
  'pylon on the wing, height by the pivotal altitude': 'Pylon auf der Fläche, Höhe nach der Pivothöhe',
  'three turns: wings level on the entry heading': 'drei Kreise: Flächen gerade auf dem Anfangskurs',
  'wings level, on to the other pylon': 'Flächen gerade, weiter zum anderen Pylon',
  'three quarters': 'drei Viertel',
  'wings level on the entry heading': 'Flächen gerade auf dem Anfangskurs',
  'wings level on the new heading': 'Flächen gerade auf dem neuen Kurs',
  'wings level, entry height and speed': 'Flächen gerade, Höhe und Fahrt wie zu Beginn',
  'wings level, just above the stall': 'Flächen gerade, knapp über der Überziehfahrt',
  'wings level, nose still up': 'Flächen gerade, Nase noch oben',
  'wings level: clear?': 'Flächen gerade: frei?',

  // checks
  'Area cleared': 'Luftraum geprüft',
  'Back on the first heading': 'Zurück auf dem ersten Kurs',
  'Ball within a quarter of its width': 'Kugel höchstens eine Viertelbreite draußen',
  'Ball most of the time': 'Kugel über die ganze Kurve',
  'Bank always moving': 'Querlage immer in Bewegung',
  'Bank as set': 'Querlage wie gesetzt',
  'Bank at 135°': 'Querlage bei 135°',
  'Bank at 45°': 'Querlage bei 45°',
  'Bank at 90°': 'Querlage bei 90°',
  'Bank held': 'Querlage gehalten',
  'Bank held to 90°': 'Querlage gehalten bis 90°',
  'Bank of the clearing turns': 'Querlage der Kontrollkurven',
  'Bank at the start of the turn': 'Querlage am Anfang der Kurve',
  'Distance from the point': 'Abstand vom Punkt',
  'Fastest, against the entry': 'Größte Fahrt, gegen den Anfang',
  'Height off the pivotal altitude': 'Höhe neben der Pivothöhe',
  'How far the height moved': 'Wie weit die Höhe ging',
  'How far the pivotal altitude moved': 'Wie weit die Pivothöhe ging',
  'Power in the spiral': 'Leistung in der Spirale',
  'Pylon off the wing line': 'Pylon neben der Flächenlinie',
  'Slowest, against the entry': 'Kleinste Fahrt, gegen den Anfang',
  'Turn in all': 'Kurve insgesamt',
  'Entry speed': 'Fahrt zu Beginn',
  'Same height at 135° as at 45°': 'Gleiche Höhe bei 135° wie bei 45°',
  'Height at each exit, from the first entry': 'Höhe an jedem Ausgang, gegen den ersten Anfang',
  'Height at the exit': 'Höhe am Ende',
  'Height gained': 'Höhengewinn',
  'Height held': 'Höhe gehalten',
  'Height kept in the recovery': 'Höhe beim Übergang gehalten',
  'Highest load factor': 'Größtes Lastvielfaches',
  'Highest nose': 'Höchste Nase',
  'Same highest nose on each leg': 'Höchste Nase in jedem Teil gleich',
  'Last clearing turn, toward the maneuver': 'Letzte Kontrollkurve, zum Manöver hin',
  'Legs finished': 'Beendete Teile',
  'Legs flown twice the same way': 'Teile zweimal in dieselbe Richtung',
  'Level flight before entry': 'Horizontalflug vor Beginn',
  'Lowest nose': 'Tiefste Nase',
  'Same lowest nose on each leg': 'Tiefste Nase in jedem Teil gleich',
  'Lowest speed': 'Kleinste Fahrt',
  'Margin over the stall': 'Abstand zur Überziehfahrt',
  'Nose always moving': 'Nase immer in Bewegung',
  'Nose at 90°': 'Nase bei 90°',
  'Nose held in the roll-out, not dropped': 'Nase beim Ausleiten gehalten, nicht gesenkt',
  'Nose held in the roll-out, not raised': 'Nase beim Ausleiten gehalten, nicht gehoben',
  'Nose never let down': 'Nase nie abgesenkt',
  'Nose as far down as it was up': 'Nase so weit unten, wie sie oben war',
  'Power left alone': 'Leistung unverändert',
  'Power left alone once set': 'Leistung nach dem Setzen unverändert',
  Rhythm: 'Rhythmus',
  'Same rhythm on each leg': 'Rhythmus in jedem Teil gleich',
  'Roll-in as quick as the roll-out': 'Einleiten so schnell wie das Ausleiten',
  'Roll-out at one rate': 'Gleichmäßiges Ausleiten',
  'Even pace through the turn': 'Gleichmäßiges Tempo durch die Kurve',
  'Smoothness of the pull': 'Ruhe im Ziehen',
  'Smoothness of the roll': 'Ruhe im Rollen',
  'Speed always changing': 'Fahrt immer im Wandel',
  'Speed at each exit, from the first entry': 'Fahrt an jedem Ausgang, gegen den ersten Anfang',
  'Speed at the exit': 'Fahrt am Ende',
  'Speed at the exit held for a moment': 'Fahrt am Ausgang einen Moment gehalten',
  'Speed falling throughout': 'Fahrt durchweg abnehmend',
  'Speed held': 'Fahrt gehalten',
  'Steepest bank': 'Größte Querlage',
  'Same steepest bank on each leg': 'Größte Querlage in jedem Teil gleich',
  'Turn at the exit': 'Kurvenwinkel am Ende',
  'Where the bank is steepest': 'Wo die Querlage am größten ist',
  'Where the nose is highest': 'Wo die Nase am höchsten ist',
  'Where the roll-out starts': 'Wo das Ausleiten beginnt',
  'Wings level before entry': 'Flächen gerade vor Beginn',

  // courses
  'First course': 'Erster Lehrgang',
  'Wing-over and chandelle: the parts, then the whole, on both sides, then a silent check of each.':
    'Wing-over und Chandelle: die Abschnitte, dann das Ganze, nach beiden Seiten, dann je eine stille Prüfung.',
  'Commercial performance maneuvers': 'Manöver der Berufspilotenprüfung',
  'The maneuvers of FAA-S-ACS-7 area V in its order: each to the standard, then a silent check.':
    'Die Manöver von FAA-S-ACS-7 Bereich V in ihrer Reihenfolge: jedes bis zum Standard, dann eine stille ' +
    'Prüfung.',
  'Against a weakness': 'Gegen eine Schwäche',
  'One thing that keeps going wrong: the part that shows it, then the whole maneuver, then a silent check.':
    'Eine Sache, die immer wieder misslingt: der Abschnitt, der sie zeigt, dann das ganze Manöver, dann eine ' +
    'stille Prüfung.',
  'Wing-over: roll-out onto the line': 'Wing-over: Ausleiten auf die Linie',
  'Wing-over, the whole': 'Wing-over, das Ganze',
  'Wing-over, to the standard': 'Wing-over, bis zum Standard',
  'Chandelle: bank held to 90°': 'Chandelle: Querlage bis 90° halten',
  'Chandelle: nose held, bank off': 'Chandelle: Nase halten, Querlage heraus',
  'Chandelle, the whole': 'Chandelle, das Ganze',
  'Chandelle, to the standard': 'Chandelle, bis zum Standard',
  'Check: wing-over': 'Prüfung: Wing-over',
  'Check: chandelle': 'Prüfung: Chandelle',
  'Check: steep turn': 'Prüfung: Steilkurve',
  'Check: lazy eight': 'Prüfung: Lazy Eight',
  'Check: steep spiral': 'Prüfung: Steilspirale',
  'Check: eights on pylons': 'Prüfung: Achten um Pylone',
  'Steep turn': 'Steilkurve',
  'The part that shows it': 'Der Abschnitt, der sie zeigt',
  'The whole maneuver': 'Das ganze Manöver',
  'Level roll, the ball held': 'Rollen im Horizontalflug, Kugel gehalten',
  'Roll-out from 90°': 'Ausleiten ab 90°',
  'A level half turn: 30° of bank held to 90°, then taken off at one rate, so that it is gone at 180°.':
    'Eine halbe Kurve ohne Höhenänderung: 30° Querlage bis 90° halten, dann gleichmäßig herausnehmen, bei ' +
    '180° ist sie weg.',
  'Roll briskly into a level turn at 45° of bank, and as briskly out at 90° of turn, the ball held by the feet.':
    'Zügig in eine Horizontalkurve mit 45° Querlage rollen und bei 90° ebenso zügig heraus, die Kugel mit ' +
    'den Füßen gehalten.',
  'bank 30°, begin the roll-out': 'Querlage 30°, Ausleiten beginnen',
  'bank about 20°, coming off': 'Querlage etwa 20°, sie geht heraus',
  'wings level': 'Flächen gerade',
  'highest nose, bank 45°': 'Nase am höchsten, Querlage 45°',
  'wings and nose level': 'Flächen und Nase gerade',
  'Wing-over to 45°, back to level': 'Wing-over bis 45°, zurück in die Horizontale',
  'Wing-over to 90°, wings level on top': 'Wing-over bis 90°, Flächen oben gerade',
  'Nose and bank grow together to 45° of turn, highest nose and 45° of bank there; then both back to level.':
    'Nase und Querlage wachsen gemeinsam bis 45° der Kurve, dort Nase am höchsten und 45° Querlage; dann ' +
    'beide zurück.',
  'The first half of a wing-over: nose through the horizon and bank steepest at 90°, then wings level on top.':
    'Die erste Hälfte eines Wing-overs: bei 90° Nase durch den Horizont, Querlage am größten, dann Flächen ' +
    'oben gerade.',
  'Wind from the side of the turn': 'Wind von der Seite der Kurve',
  'Roll-in, until the pylon is abeam': 'Einleiten, bis der Pylon querab ist',
  'Distance from the pylon at the start': 'Abstand vom Pylon am Anfang',
  'Same distance from each pylon': 'Gleicher Abstand von beiden Pylonen',
};
