// German words of the server's: cards, callouts and reasons. # stands for a number.

/** @type {Readonly<Record<string, string>>} */
export const server = {
  // cues and corrections
  'Hold the nose up': 'Nase oben halten',
  'Keep the nose coming up': 'Nase weiter heben',
  'Less bank at ninety': 'Weniger Querlage bei neunzig',
  'Less bank at the top': 'Oben weniger Querlage',
  'Let the nose down further': 'Nase weiter ablassen',
  'Let the nose down sooner': 'Nase früher nachlassen',
  'Let the nose drop sooner': 'Nase früher fallen lassen',
  'Look behind the wing': 'Hinter die Fläche schauen',
  'Lower nose in the descent': 'Im Sinken Nase tiefer',
  'Lower nose in descent': 'Im Sinken Nase tiefer',
  'Nose highest, bank fifteen': 'Nase am höchsten, Querlage fünfzehn',
  'Nose lowest, bank fifteen': 'Nase am tiefsten, Querlage fünfzehn',
  'Fly all the legs': 'Alle Teile fliegen',
  'Keep the bank coming': 'Querlage weiter wachsen lassen',
  'Raise the nose sooner': 'Nase früher heben',
  'Roll slower, nose first': 'Langsamer rollen, Nase zuerst',
  'Same picture both ways': 'Gleiches Bild beidseits',
  'Settle down before entry': 'Vor Beginn zur Ruhe kommen',
  'Ease the pull': 'Nachlassen',
  // what is wanted at a checkpoint
  'nose level': 'Nase waagerecht',
  'wings level': 'Flächen gerade',
  // why a leg ended, why a check has no value
  'Too shallow to count': 'Zu flach, zählt nicht',
  'Legs finished': 'Beendete Teile',
  'Knock it off': 'Abbrechen',
  'Not within standard': 'Nicht im Standard',
  'Not measured': 'Nicht gemessen',
  'Another maneuver was flown': 'Ein anderes Manöver wurde geflogen',
  // what the stream lacks
  // summaries of the cards
  ['A climbing half turn: bank and nose grow together to #° of bank at #°, and the bank comes off at the rate ' +
    'it came.']:
    'Eine steigende halbe Kurve: Querlage und Nase wachsen zusammen bis #° Querlage bei #°, und die Querlage ' +
    'geht so schnell heraus, wie sie kam.',
  'A climbing half turn: bank held to #° while the nose rises, then the nose held while the bank comes off.':
    'Eine steigende halbe Kurve: Querlage bis #° gehalten, während die Nase steigt, dann die Nase gehalten, ' +
    'während die Querlage herausgeht.',
  'A climbing turn through #° and a descending one through # more, back at entry speed and height the other way.':
    'Eine steigende Kurve über #° und eine sinkende über weitere #, zurück auf Fahrt und Höhe des Beginns in der ' +
    'Gegenrichtung.',
  'Once around at #° of bank, height and speed held, then once around the other way.':
    'Einmal herum mit #° Querlage, Höhe und Fahrt gehalten, dann einmal andersherum.',
  ['Two half turns in opposite directions, each a slow climb to #° and a slow descent back to entry speed and ' +
    'height.']:
    'Zwei halbe Kurven nach beiden Seiten, jede ein langsames Steigen bis #° und ein langsames Sinken zurück auf ' +
    'Fahrt und Höhe des Beginns.',
  'Two level turns of #° in opposite directions before a maneuver, with eyes outside: is the area clear?':
    'Zwei Kurven von #° in gleicher Höhe nach beiden Seiten vor einem Manöver, Blick nach draußen: ist der Raum frei?',
  // the usual errors
  'Bank and nose out of step.': 'Querlage und Nase nicht im Gleichschritt.',
  'Bank and pull out of step: the nose is highest too early or too late.':
    'Rollen und Ziehen nicht im Gleichschritt: die Nase ist zu früh oder zu spät am höchsten.',
  'Bank drifts: the height goes with it.': 'Die Querlage wandert: die Höhe geht mit.',
  'Bank grows after it was set.': 'Die Querlage wächst, nachdem sie gesetzt war.',
  'Bank held past #°, then rolled out in a hurry.': 'Querlage über #° hinaus gehalten, dann hastig ausgerollt.',
  'Bank held past the top: the nose drops and the dive is too steep.':
    'Querlage über den Scheitel hinaus gehalten: die Nase fällt, und das Sinken wird zu steil.',
  'Bank too shallow at the start: it stalls before the turn is done.':
    'Anfangs zu wenig Querlage: überzogen, bevor die Kurve fertig ist.',
  'Bank too steep: little height is gained.': 'Zu viel Querlage: wenig Höhengewinn.',
  'Eyes on the instruments instead of the horizon.': 'Blick auf den Instrumenten statt am Horizont.',
  'Feet on the floor: slipping over the top, where the rudder is needed most.':
    'Füße am Boden: Schieben über den Scheitel, wo das Seitenruder am nötigsten ist.',
  'Height lost in the roll-in, or gained in the roll-out.':
    'Höhe beim Einrollen verloren oder beim Ausrollen gewonnen.',
  'Height not regained at #°.': 'Höhe bei #° nicht wiedergewonnen.',
  'Height wanders while the eyes are inside.': 'Die Höhe wandert, während der Blick drinnen ist.',
  'Hurried: the loops are not of one size.': 'Gehetzt: die Bögen sind nicht gleich groß.',
  'More than #° of bank at the top.': 'Mehr als #° Querlage am Scheitel.',
  'Nose rises during the roll-out, or sinks in it.': 'Die Nase steigt oder sinkt beim Ausrollen.',
  'Nose sinks in the roll-out: height given away.': 'Nase sinkt beim Ausrollen: Höhe verschenkt.',
  'Nose too high too early: it stalls before the turn is done.':
    'Nase zu früh zu hoch: überzogen, bevor die Kurve fertig ist.',
  'Nose too low: the speed stays well above the stall.':
    'Nase zu tief: die Fahrt bleibt weit über der Überziehfahrt.',
  'Nose up too fast in the first #°: the speed is gone before the top.':
    'Nase in den ersten #° zu schnell gehoben: die Fahrt ist vor dem Scheitel weg.',
  'Not done at all.': 'Gar nicht geflogen.',
  'Out of speed before the top, or far too much of it.': 'Vor dem Scheitel ohne Fahrt, oder mit viel zu viel.',
  'Pull-out not finished: the leg ends low and fast.': 'Abfangen nicht beendet: der Teil endet tief und schnell.',
  'Roll-out begun late: the turn ends past #°.': 'Ausrollen spät begonnen: die Kurve endet nach #°.',
  'Roll-out begun too late or too early for the heading.': 'Ausrollen für den Kurs zu spät oder zu früh begonnen.',
  'Roll-out not begun at #°.': 'Ausrollen bei #° nicht begonnen.',
  'Started too quickly: #° comes before the nose is highest.':
    'Zu schnell begonnen: #° kommen, bevor die Nase am höchsten ist.',
  'The nose-low half shallower or steeper than the nose-high half.':
    'Die sinkende Hälfte flacher oder steiler als die steigende.',
  'Too little right rudder as the speed falls.': 'Zu wenig rechtes Seitenruder bei sinkender Fahrt.',
  'Too shallow or too short to see behind the wing.': 'Zu flach oder zu kurz, um hinter die Fläche zu sehen.',
  'Wings level before #°.': 'Flächen gerade vor #°.',
};
