// German of the usual errors, as the maneuver cards list them.

/** @type {Readonly<Record<string, string>>} */
export const errors = {
  'Bank and nose out of step.': 'Querlage und Nase nicht im Gleichschritt.',
  'Bank and pull out of step: the nose is highest too early or too late.':
    'Rollen und Ziehen nicht im Gleichschritt: die Nase ist zu früh oder zu spät am höchsten.',
  'Bank drifts: the height goes with it.': 'Die Querlage wandert: die Höhe geht mit.',
  'Bank grows after it was set.': 'Die Querlage wächst, nachdem sie gesetzt war.',
  'Bank held past 90°, then rolled out in a hurry.': 'Querlage über 90° hinaus gehalten, dann hastig ausgeleitet.',
  'Bank held past the top: the nose drops and the dive is too steep.':
    'Querlage über den Scheitel hinaus gehalten: die Nase fällt, und das Sinken wird zu steil.',
  'Bank too shallow at the start: it stalls before the turn is done.':
    'Anfangs zu wenig Querlage: überzogen, bevor die Kurve fertig ist.',
  'Bank too steep: little height is gained.': 'Zu viel Querlage: wenig Höhengewinn.',
  'Eyes on the instruments instead of the horizon.': 'Blick auf den Instrumenten statt am Horizont.',
  'Feet on the floor: slipping over the top, where the rudder is needed most.':
    'Füße am Boden: Schmieren über den Scheitel, wo das Seitenruder am nötigsten ist.',
  'Height lost in the roll-in, or gained in the roll-out.':
    'Höhe beim Einleiten verloren oder beim Ausleiten gewonnen.',
  'Height not regained at 180°.': 'Höhe bei 180° nicht wiedergewonnen.',
  'Height wanders while the eyes are inside.': 'Die Höhe wandert, während der Blick drinnen ist.',
  'Hurried: the loops are not of one size.': 'Gehetzt: die Bögen sind nicht gleich groß.',
  'More than 30° of bank at the top.': 'Mehr als 30° Querlage am Scheitel.',
  'Nose rises during the roll-out, or sinks in it.': 'Die Nase steigt oder sinkt beim Ausleiten.',
  'Nose sinks in the roll-out: height given away.': 'Nase sinkt beim Ausleiten: Höhe verschenkt.',
  'Nose too high too early: it stalls before the turn is done.':
    'Nase zu früh zu hoch: überzogen, bevor die Kurve fertig ist.',
  'Nose too low: the speed stays well above the stall.': 'Nase zu tief: die Fahrt bleibt weit über der Überziehfahrt.',
  'Nose up too fast in the first 45°: the speed is gone before the top.':
    'Nase in den ersten 45° zu schnell gehoben: die Fahrt ist vor dem Scheitel weg.',
  'Not done at all.': 'Gar nicht geflogen.',
  'Out of speed before the top, or far too much of it.': 'Vor dem Scheitel ohne Fahrt, oder mit viel zu viel.',
  'Pull-out not finished: the leg ends low and fast.': 'Abfangen nicht beendet: der Teil endet tief und schnell.',
  'Roll-out begun late: the turn ends past 180°.': 'Ausleiten spät begonnen: die Kurve endet nach 180°.',
  'Roll-out begun too late or too early for the heading.': 'Ausleiten für den Kurs zu spät oder zu früh begonnen.',
  'Roll-out not begun at 90°.': 'Ausleiten bei 90° nicht begonnen.',
  'Started too quickly: 45° comes before the nose is highest.':
    'Zu schnell begonnen: 45° kommen, bevor die Nase am höchsten ist.',
  'The nose-low half shallower or steeper than the nose-high half.':
    'Die sinkende Hälfte flacher oder steiler als die steigende.',
  'Too little right rudder as the speed falls.': 'Zu wenig rechtes Seitenruder bei sinkender Fahrt.',
  'Too shallow or too short to see behind the wing.': 'Zu flach oder zu kurz, um hinter die Fläche zu sehen.',
  'Wings level before 180°.': 'Flächen gerade vor 180°.',
  'Feet on the floor: the ball is out as long as the wings move.':
    'Füße am Boden: Die Kugel ist draußen, solange die Flächen sich bewegen.',
  'Height lost as the bank grows, gained as it comes off.':
    'Höhe verloren, während die Querlage wächst, gewonnen, während sie herausgeht.',
  'Rolling in quickly and out slowly.': 'Schnell eingeleitet und langsam ausgeleitet.',
  'Wings level before 180°: the bank came off too fast at first.':
    'Flächen gerade vor 180°: Die Querlage ging anfangs zu schnell heraus.',
  'Feet on the floor as the speed falls.': 'Füße am Boden, während die Fahrt abnimmt.',
  'Nose up too fast: the speed is gone early.': 'Nase zu schnell hoch: Die Fahrt ist früh weg.',
  'Bank drifts after it was set.': 'Querlage wandert, nachdem sie gesetzt war.',
  'Height lost, most of all at 45° of bank.': 'Höhe verloren, am meisten bei 45° Querlage.',
  'No look around before and in the turn.': 'Kein Blick ringsum vor und in der Kurve.',
  'No power added for the drag of the bank: the airspeed falls.':
    'Keine Leistung gegen den Widerstand der Kurve: die Fahrt fällt.',
  'Poor trim.': 'Schlecht getrimmt.',
  'Abrupt controls, too much change of height.': 'Ruckartige Steuerung, zu große Höhenänderungen.',
  'Airspeed not held: it moves with every change of bank unless the nose leads.':
    'Fahrt nicht gehalten: sie ändert sich mit jeder Querlage, wenn die Nase nicht führt.',
  'Bank not varied for the wind: the circle drifts away from the point.':
    'Querlage nicht nach dem Wind geändert: der Kreis treibt vom Punkt weg.',
  'Height kept while the ground speed changes: the pylon moves ahead or falls behind.':
    'Höhe gehalten, während die Geschwindigkeit über Grund sich ändert: der Pylon wandert vor oder zurück.',
  'More than 60° of bank downwind, because the circle is too small.':
    'Über 60° Querlage mit Rückenwind, weil der Kreis zu klein ist.',
  'Pivotal altitude not found.': 'Pivothöhe nicht gefunden.',
  'Rolled out past the heading, or with a jump of the airspeed.':
    'Nach dem Kurs ausgeleitet, oder mit einem Sprung der Fahrt.',
  'Rudder used to drag the wing to the pylon.': 'Die Fläche mit dem Seitenruder zum Pylon gezogen.',
  'Slip or skid while the bank changes.': 'Schieben oder Schmieren bei Änderungen der Querlage.',
  'Slip or skid.': 'Schieben oder Schmieren.',
  'Too close to the pylon: more than 40° of bank.': 'Zu nah am Pylon: über 40° Querlage.',
  'Turn not begun into the wind, or without allowance for drift between the pylons.':
    'Kurve nicht gegen den Wind begonnen, oder ohne Vorhalt zwischen den Pylonen.',
  'Turns miscounted.': 'Kreise falsch gezählt.',
};
