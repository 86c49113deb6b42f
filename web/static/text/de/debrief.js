// German words of causes and advice. # stands for a number.

/** @type {Readonly<Record<string, string>>} */
export const debrief = {
  // what a debrief advises
  'It was stopped at the hard deck: start higher, and break off yourself before you reach it.':
    'An der Mindesthöhe war Schluss: höher beginnen und selbst abbrechen, bevor sie erreicht ist.',
  'The turn was given up on the way: fly it through to level wings on the heading.':
    'Die Kurve wurde unterwegs aufgegeben: bis zu geraden Flächen auf dem Kurs durchfliegen.',
  'You were descending when you began: hold the height for five seconds, then roll in.':
    'Im Sinken begonnen: fünf Sekunden die Höhe halten, dann einrollen.',
  'You were climbing when you began: hold the height for five seconds, then roll in.':
    'Im Steigen begonnen: fünf Sekunden die Höhe halten, dann einrollen.',
  'The wings were not level when you began: level them on the line, then roll in.':
    'Die Flächen waren zu Beginn nicht gerade: auf der Linie gerade machen, dann einrollen.',
  'You turned past the heading: start the roll-out when the degrees to go are half the bank.':
    'Über den Kurs hinausgedreht: ausrollen, wenn noch so viele Grad bleiben, wie die halbe Querlage hat.',
  'You began too slow: wait for the entry speed before you roll in.':
    'Zu langsam begonnen: vor dem Einrollen die Anfangsfahrt abwarten.',
  'You began too fast: settle on the entry speed before you roll in.':
    'Zu schnell begonnen: vor dem Einrollen die Anfangsfahrt einhalten.',
  'You began too fast, so the whole turn ran fast: settle on the entry speed before you pull.':
    'Zu schnell begonnen, also lief die ganze Kurve schnell: vor dem Ziehen auf die Anfangsfahrt einpendeln.',
  'You were descending when you began: hold the height for five seconds, then pull.':
    'Im Sinken begonnen: fünf Sekunden die Höhe halten, dann ziehen.',
  'You were climbing when you began: hold the height for five seconds, then pull.':
    'Im Steigen begonnen: fünf Sekunden die Höhe halten, dann ziehen.',
  'The wings were not level when you began: level them on the line, then pull.':
    'Die Flächen waren zu Beginn nicht gerade: auf der Linie gerade machen, dann ziehen.',
  'The turn dragged on: keep the bank growing steadily, so that the nose comes round in time.':
    'Die Kurve zog sich hin: die Querlage stetig wachsen lassen, damit die Nase rechtzeitig herumkommt.',
  'The bank came off too soon: look at the wing against the horizon and hold it where it was.':
    'Die Querlage ging zu früh heraus: die Fläche gegen den Horizont ansehen und sie dort halten.',
  'The bank came on faster than it went off: roll in with one slow, even pressure.':
    'Die Querlage kam schneller hinein, als sie herausging: mit einem langsamen, gleichmäßigen Druck einrollen.',
  'The nose went too high, so the speed ran out over the top: pull more gently and stop the nose lower.':
    'Die Nase ging zu hoch, also ging oben die Fahrt aus: sanfter ziehen und die Nase tiefer anhalten.',
  'The nose was already down at ninety: keep a little back pressure until it passes the horizon there.':
    'Die Nase war bei neunzig schon unten: ein wenig gezogen halten, bis sie dort den Horizont kreuzt.',
  'The nose went on rising in the roll-out: stop it at ninety degrees of turn and hold it there.':
    'Die Nase stieg beim Ausrollen weiter: sie bei neunzig Grad anhalten und dort halten.',
  'The roll-out began too early: hold the bank until the nose has passed ninety degrees of turn.':
    'Das Ausrollen begann zu früh: die Querlage halten, bis die Nase neunzig Grad passiert hat.',
  'The roll-out began too late: begin to take the bank off as the nose passes ninety degrees of turn.':
    'Das Ausrollen begann zu spät: die Querlage herauszunehmen beginnen, wenn die Nase neunzig Grad passiert.',
  'You ended above the height you began at: let the nose down as far as it went up.':
    'Das Ende lag über der Anfangshöhe: die Nase so weit hinunterlassen, wie sie hinaufging.',
  'The speed ran out before the end: hold the nose a little lower from ninety degrees on.':
    'Die Fahrt ging vor dem Ende aus: die Nase ab neunzig Grad etwas tiefer halten.',
  'You came out fast with the power left alone: it was set too high, so set less before the entry.':
    'Schnelles Ende bei unveränderter Leistung: sie war zu hoch, also vor Beginn weniger setzen.',
  'You came out slow with the power left alone: it was set too low, so set more before the entry.':
    'Langsames Ende bei unveränderter Leistung: sie war zu niedrig, also vor Beginn mehr setzen.',
  'The maneuver was not flown to its end: fly every leg of it, one after the other.':
    'Das Manöver wurde nicht zu Ende geflogen: jeden Teil fliegen, einen nach dem anderen.',

  // what it measured, in words
  'Nose highest now': 'Nase jetzt am höchsten',
  'Bank back to thirty': 'Querlage zurück auf dreißig',
  'Hold nose, start rolling out': 'Nase halten, Ausrollen beginnen',
  'Finish the turn': 'Kurve zu Ende fliegen',
  'Hold the nose, no higher': 'Nase halten, nicht höher',
  'Keep the bank from growing': 'Querlage nicht wachsen lassen',
  'Hold thirty, no more': 'Dreißig halten, nicht mehr',
  'Less nose at ninety': 'Weniger Nase bei neunzig',
  'Start higher': 'Höher beginnen',
  'Stay inside the limits': 'In den Grenzen bleiben',
  'the aircraft card gives no entry speed': 'die Flugzeugkarte nennt keine Anfangsfahrt',
  'the aircraft card gives no stall speed': 'die Flugzeugkarte nennt keine Überziehfahrt',
  "the highest nose follows from the aircraft card's entry and apex speeds":
    'die höchste Nase folgt aus Anfangs- und Scheitelfahrt der Flugzeugkarte',
  'Knock off': 'Aus Sicherheit beendet',
};
