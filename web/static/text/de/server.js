// German words of the server's: cards, callouts and reasons. # stands for a number.

/** @type {Readonly<Record<string, string>>} */
export const server = {
  // cues and corrections
  'Bank # hold height': 'Querlage # Höhe halten',
  'Fast, more nose': 'Schnell, mehr Nase',
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
  'Hard deck! Climb': 'Mindesthöhe! Steigen',
  'Too fast! Ease out': 'Zu schnell! Sanft abfangen',
  'Too steep! Roll level': 'Zu steil! Flächen gerade',
  // what is wanted at a checkpoint
  'nose #° up': 'Nase #° oben',
  'nose #° down': 'Nase #° unten',
  'nose level': 'Nase waagerecht',
  'wings level': 'Flächen gerade',
  'bank #°': 'Querlage #°',
  // why a leg ended, why a check has no value
  'below the hard deck': 'unter der Mindesthöhe',
  'over the bank limit': 'über der Grenze der Querlage',
  'over the load factor limit': 'über der Grenze des Lastvielfachen',
  'over the never-exceed airspeed': 'über der höchstzulässigen Fahrt',
  'turned back': 'zurückgedreht',
  'took longer than the card allows': 'dauerte länger, als die Karte erlaubt',
  'the stream has a hole from #° to #° of the turn': 'die Daten haben eine Lücke von #° bis #° der Kurve',
  'a quarter of the turn took no time': 'ein Viertel der Kurve dauerte keine Zeit',
  'the leg is too short to tell how smooth it is': 'der Teil ist zu kurz, um seine Ruhe zu beurteilen',
  'the turn was followed to #° only': 'die Kurve wurde nur bis #° verfolgt',
  'stopped before the wings were level': 'beendet, bevor die Flächen gerade waren',
  'the turn did not reach its last quarter': 'die Kurve erreichte ihr letztes Viertel nicht',
  'there is no reference path: it needs an aircraft card':
    'es gibt keinen Referenzverlauf: er braucht eine Flugzeugkarte',
  'there was no roll-in and roll-out': 'es gab kein Einrollen und Ausrollen',
  'it was ended before the rest could be flown': 'es wurde beendet, bevor der Rest geflogen werden konnte',
  '# of # legs finished': '# von # Teilen beendet',
  'one to the right is missing': 'einer nach rechts fehlt',
  'one to the left is missing': 'einer nach links fehlt',
  '# to the right are missing': '# nach rechts fehlen',
  '# to the left are missing': '# nach links fehlen',
  'the turn to the right was too shallow to count': 'die Kurve nach rechts war zu flach, um zu zählen',
  'the turn to the left was too shallow to count': 'die Kurve nach links war zu flach, um zu zählen',
  'Too shallow to count': 'Zu flach, zählt nicht',
  'Legs finished': 'Beendete Teile',
  'Knock it off': 'Abbrechen',
  'Not within standard': 'Nicht im Standard',
  'the series has too few finished legs': 'die Folge hat zu wenige beendete Teile',
  'the aircraft card gives no apex speed': 'die Flugzeugkarte nennt keine Scheitelfahrt',
  'not measured on every leg': 'nicht in jedem Teil gemessen',
  // what the stream lacks
  'no level flight came before': 'es ging kein Horizontalflug voraus',
  'the stream had no bank there': 'die Daten enthielten dort keine Querlage',
  'the stream had no pitch there': 'die Daten enthielten dort keine Nasenlage',
  'the stream had no airspeed there': 'die Daten enthielten dort keine Fahrt',
  'the stream had no altitude there': 'die Daten enthielten dort keine Höhe',
  'the stream had no climb there': 'die Daten enthielten dort keine Höhe',
  'the stream has no climb': 'die Daten enthalten keine Höhe',
  'the stream had no vertical-speed there': 'die Daten enthielten dort keine Steigrate',
  'the stream had no normal-load there': 'die Daten enthielten dort kein Lastvielfaches',
  'the stream had no power there': 'die Daten enthielten dort keine Leistung',
  'the stream had no roll-rate there': 'die Daten enthielten dort keine Rollrate',
  'the stream had no pitch-rate there': 'die Daten enthielten dort keine Nickrate',
  'the stream had no stall-margin there': 'die Daten enthielten dort keinen Abstand zur Überziehfahrt',
  'the stream has no ball, lateral load or sideslip':
    'die Daten enthalten weder Kugel noch seitliches Lastvielfaches noch Schiebewinkel',
  'the stream had no ball, lateral load or sideslip there':
    'die Daten enthielten dort weder Kugel noch seitliches Lastvielfaches noch Schiebewinkel',
  'the stream has no bank': 'die Daten enthalten keine Querlage',
  'the stream has no pitch': 'die Daten enthalten keine Nasenlage',
  'the stream has no airspeed': 'die Daten enthalten keine Fahrt',
  'the stream has no altitude': 'die Daten enthalten keine Höhe',
  'the stream has no heading': 'die Daten enthalten keinen Kurs',
  'the stream has no vertical-speed': 'die Daten enthalten keine Steigrate',
  'the stream has no ball': 'die Daten enthalten keine Kugel',
  'the stream has no normal-load': 'die Daten enthalten kein Lastvielfaches',
  'the stream has no power': 'die Daten enthalten keine Leistung',
  'the stream has no roll-rate': 'die Daten enthalten keine Rollrate',
  'the stream has no pitch-rate': 'die Daten enthalten keine Nickrate',
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
