// German words of causes and advice. # stands for a number.

/** @type {Readonly<Record<string, string>>} */
export const debrief = {
  // what a debrief advises
  'The turn was given up on the way: decide before the pull, then fly it through to level wings on the heading.':
    'Die Kurve wurde unterwegs aufgegeben: vor dem Ziehen entscheiden, dann bis zu geraden Flächen auf dem Kurs ' +
    'durchfliegen.',
  'It was stopped at the hard deck: start higher, and break off yourself before you reach it.':
    'An der Mindesthöhe war Schluss: höher beginnen und selbst abbrechen, bevor sie erreicht ist.',
  'A limit of the aircraft was passed: ease the controls early, and watch speed and load in the descent.':
    'Eine Grenze des Flugzeugs wurde überschritten: früh nachlassen und im Sinken auf Fahrt und Last achten.',
  'The wing ran out of lift: ease the back pressure as soon as the controls go soft, and bring the nose up less.':
    'Dem Flügel ging der Auftrieb aus: nachlassen, sobald die Ruder weich werden, und die Nase weniger heben.',
  'More than one thing was moving at the entry: hold height, speed and level wings for five seconds, then begin.':
    'Zu Beginn war mehr als eines in Bewegung: fünf Sekunden Höhe, Fahrt und gerade Flächen halten, dann beginnen.',
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
  'You began too slow, so there was too little speed for the climb: wait for the entry speed before you pull.':
    'Zu langsam begonnen, also zu wenig Fahrt zum Steigen: vor dem Ziehen die Anfangsfahrt abwarten.',
  'You began too fast, so the whole turn ran fast: settle on the entry speed before you pull.':
    'Zu schnell begonnen, also lief die ganze Kurve schnell: vor dem Ziehen auf die Anfangsfahrt einpendeln.',
  'You were descending when you began: hold the height for five seconds, then pull.':
    'Im Sinken begonnen: fünf Sekunden die Höhe halten, dann ziehen.',
  'You were climbing when you began: hold the height for five seconds, then pull.':
    'Im Steigen begonnen: fünf Sekunden die Höhe halten, dann ziehen.',
  'The wings were not level when you began: level them on the line, then pull.':
    'Die Flächen waren zu Beginn nicht gerade: auf der Linie gerade machen, dann ziehen.',
  'The turn was rushed: roll in and out at half that rate, and let the nose climb before the bank grows.':
    'Die Kurve war gehetzt: halb so schnell ein- und ausrollen und die Nase steigen lassen, bevor die Querlage ' +
    'wächst.',
  'The turn dragged on: keep the bank growing steadily, so that the nose comes round in time.':
    'Die Kurve zog sich hin: die Querlage stetig wachsen lassen, damit die Nase rechtzeitig herumkommt.',
  'The bank went on growing after it was set: hold it with opposite aileron, it wants to steepen by itself.':
    'Die Querlage wuchs weiter, nachdem sie stand: mit Gegenquerruder halten, sie will von selbst steiler werden.',
  'The bank came off too soon: look at the wing against the horizon and hold it where it was.':
    'Die Querlage ging zu früh heraus: die Fläche gegen den Horizont ansehen und sie dort halten.',
  ['The bank went too far, and past it the nose falls through: stop the roll earlier and look for the horizon ' +
    'across the nose.']:
    'Die Querlage ging zu weit, und dahinter fällt die Nase durch: das Rollen früher anhalten und den Horizont ' +
    'über der Nase suchen.',
  'There was too little bank: keep rolling slowly all the way to the steepest point, and let the nose come round.':
    'Es war zu wenig Querlage: langsam bis zum steilsten Punkt weiterrollen und die Nase herumkommen lassen.',
  ['The bank was held too long and then came off in a hurry: start just past ninety and take it off as slowly ' +
    'as it came on.']:
    'Die Querlage blieb zu lange und ging dann hastig heraus: kurz nach neunzig beginnen und sie so langsam ' +
    'herausnehmen, wie sie hineinkam.',
  'The bank came on faster than it went off: roll in with one slow, even pressure.':
    'Die Querlage kam schneller hinein, als sie herausging: mit einem langsamen, gleichmäßigen Druck einrollen.',
  ['The bank was steepest too early and came off before the nose was round: roll slower and keep rolling to ' +
    'ninety degrees of turn.']:
    'Die Querlage war zu früh am größten und ging heraus, bevor die Nase herum war: langsamer rollen und bis ' +
    'neunzig Grad weiterrollen.',
  'The bank was steepest too late: have it all by ninety degrees of turn, then begin at once to take it off.':
    'Die Querlage war zu spät am größten: sie bis neunzig Grad ganz haben, dann gleich beginnen, sie herauszunehmen.',
  ['The bank was ahead of the turn: let the nose climb first, and give half the bank at forty-five and again ' +
    'at one thirty-five.']:
    'Die Querlage war der Kurve voraus: erst die Nase steigen lassen und halbe Querlage bei fünfundvierzig und ' +
    'wieder bei hundertfünfunddreißig geben.',
  'The bank was behind the turn: begin to roll with the pull, and be half way out again at one thirty-five.':
    'Die Querlage war hinter der Kurve: mit dem Ziehen zu rollen beginnen und bei hundertfünfunddreißig wieder ' +
    'halb heraus sein.',
  'The nose went too high, so the speed ran out over the top: pull more gently and stop the nose lower.':
    'Die Nase ging zu hoch, also ging oben die Fahrt aus: sanfter ziehen und die Nase tiefer anhalten.',
  ['The nose went too high, so the speed ran out before the wings were level: pull more gently, and keep ' +
    'speed to hold the nose up to the end.']:
    'Die Nase ging zu hoch, also war die Fahrt weg, bevor die Flächen gerade waren: sanfter ziehen und Fahrt ' +
    'behalten, um die Nase bis zum Schluss oben zu halten.',
  'The nose stayed too low, so the speed was never used: pull a little more in the first forty-five degrees.':
    'Die Nase blieb zu tief, also wurde die Fahrt nie genutzt: in den ersten fünfundvierzig Grad etwas mehr ziehen.',
  'The nose was highest too early: pull more slowly and let it rise until forty-five degrees of turn.':
    'Die Nase war zu früh am höchsten: langsamer ziehen und sie bis fünfundvierzig Grad steigen lassen.',
  ['You kept pulling too long: have the nose highest at forty-five degrees of turn, then let the bank bring ' +
    'it down.']:
    'Zu lange gezogen: die Nase bei fünfundvierzig Grad am höchsten haben, dann von der Querlage herunterbringen ' +
    'lassen.',
  ['The nose was still up at ninety: ease the pull after forty-five degrees and let it fall through the ' +
    'horizon at ninety.']:
    'Die Nase war bei neunzig noch oben: nach fünfundvierzig Grad nachlassen und sie bei neunzig durch den ' +
    'Horizont fallen lassen.',
  'The nose was already down at ninety: keep a little back pressure until it passes the horizon there.':
    'Die Nase war bei neunzig schon unten: ein wenig gezogen halten, bis sie dort den Horizont kreuzt.',
  ['The nose sank in the roll-out: it takes more back pressure as the speed falls, so hold the picture until ' +
    'the wings are level.']:
    'Die Nase sank beim Ausrollen: mit fallender Fahrt braucht es mehr Zug, also das Bild halten, bis die ' +
    'Flächen gerade sind.',
  'The nose went on rising in the roll-out: stop it at ninety degrees of turn and hold it there.':
    'Die Nase stieg beim Ausrollen weiter: sie bei neunzig Grad anhalten und dort halten.',
  ['The wings were level before the heading: take the bank off so slowly that the last of it goes as the ' +
    'heading comes.']:
    'Die Flächen waren vor dem Kurs gerade: die Querlage so langsam herausnehmen, dass ihr Rest mit dem Kurs geht.',
  ['You rolled out before the heading: look for the reference point over the wing, and hold some bank until ' +
    'it is there.']:
    'Vor dem Kurs ausgerollt: den Bezugspunkt über der Fläche suchen und etwas Querlage halten, bis er dort ist.',
  ['You turned past the heading: start the roll-out sooner, so that half the bank is off with forty-five ' +
    'degrees to go.']:
    'Über den Kurs hinausgedreht: früher ausrollen, sodass bei noch fünfundvierzig Grad die halbe Querlage ' +
    'heraus ist.',
  'The roll-out began too early: hold the bank until the nose has passed ninety degrees of turn.':
    'Das Ausrollen begann zu früh: die Querlage halten, bis die Nase neunzig Grad passiert hat.',
  'The roll-out began too late: begin to take the bank off as the nose passes ninety degrees of turn.':
    'Das Ausrollen begann zu spät: die Querlage herauszunehmen beginnen, wenn die Nase neunzig Grad passiert.',
  ['The nose was still low as the wings came level: begin to raise it at one thirty-five, with the bank ' +
    'coming off.']:
    'Die Nase war noch tief, als die Flächen gerade wurden: bei hundertfünfunddreißig zu heben beginnen, während ' +
    'die Querlage herausgeht.',
  'Power was added on the way, so you came out fast: set it before the entry and take the hand off until level.':
    'Unterwegs kam Leistung dazu, also war das Ende schnell: sie vor Beginn setzen und die Hand bis zum ' +
    'Geradeausflug wegnehmen.',
  ['Power was taken off on the way, so you came out slow: set it before the entry and take the hand off until ' +
    'level.']:
    'Unterwegs ging Leistung weg, also war das Ende langsam: sie vor Beginn setzen und die Hand bis zum ' +
    'Geradeausflug wegnehmen.',
  ['You ended below the height you began at: bring the nose up sooner and let the descent be as shallow as ' +
    'the climb.']:
    'Das Ende lag unter der Anfangshöhe: die Nase früher heben und das Sinken so flach sein lassen wie das Steigen.',
  'You ended above the height you began at: let the nose down as far as it went up.':
    'Das Ende lag über der Anfangshöhe: die Nase so weit hinunterlassen, wie sie hinaufging.',
  'You ended low: bring the nose up sooner with a little more back pressure, before the wings are level.':
    'Das Ende war tief: die Nase früher mit etwas mehr Zug heben, bevor die Flächen gerade sind.',
  'You ended high: let the nose go lower in the second half and pull less until the wings are nearly level.':
    'Das Ende war hoch: die Nase in der zweiten Hälfte tiefer lassen und weniger ziehen, bis die Flächen fast ' +
    'gerade sind.',
  ['There was speed left at the end: raise the nose more in the first ninety degrees and turn all of it into ' +
    'height.']:
    'Am Ende war Fahrt übrig: die Nase in den ersten neunzig Grad mehr heben und alles in Höhe verwandeln.',
  'The speed ran out before the end: hold the nose a little lower from ninety degrees on.':
    'Die Fahrt ging vor dem Ende aus: die Nase ab neunzig Grad etwas tiefer halten.',
  'You came out fast with the power left alone: it was set too high, so set less before the entry.':
    'Schnelles Ende bei unveränderter Leistung: sie war zu hoch, also vor Beginn weniger setzen.',
  'You came out slow with the power left alone: it was set too low, so set more before the entry.':
    'Langsames Ende bei unveränderter Leistung: sie war zu niedrig, also vor Beginn mehr setzen.',
  'The speed over the top was too low: ease the pull once the nose has passed forty-five degrees of turn.':
    'Die Fahrt war oben zu klein: nachlassen, sobald die Nase fünfundvierzig Grad passiert hat.',
  'The speed over the top was too high: let the nose stay up a little longer on the way to ninety.':
    'Die Fahrt war oben zu groß: die Nase auf dem Weg zu neunzig etwas länger oben lassen.',
  'Little height came of it: raise the nose more and bank less, so that speed becomes height and not turn.':
    'Es kam wenig Höhe dabei heraus: die Nase mehr heben und weniger rollen, damit aus Fahrt Höhe wird und nicht ' +
    'Kurve.',
  'The ball was out for much of the turn: lead each roll with the foot, and add right rudder as the speed falls.':
    'Die Kugel war in der Kurve oft draußen: jedes Rollen mit dem Fuß führen und mit fallender Fahrt rechtes ' +
    'Seitenruder geben.',
  ['Two legs went the same way: fly the second to the other side, so that both sides are practiced and you ' +
    'end where you began.']:
    'Zwei Teile gingen in dieselbe Richtung: den zweiten zur anderen Seite fliegen, damit beide Seiten geübt ' +
    'sind und das Ende am Anfang liegt.',
  'The legs were not alike: look for the same nose and the same bank to both sides, and compare them at ninety.':
    'Die Teile waren nicht gleich: zu beiden Seiten dieselbe Nase und dieselbe Querlage suchen und sie bei ' +
    'neunzig vergleichen.',
  'You did not end on the line you began on: choose a road or a shore as the line, and roll each leg out on it.':
    'Das Ende lag nicht auf der Linie des Beginns: eine Straße oder ein Ufer als Linie wählen und jeden Teil ' +
    'darauf ausrollen.',
  'The maneuver was not flown to its end: fly every leg of it, one after the other.':
    'Das Manöver wurde nicht zu Ende geflogen: jeden Teil fliegen, einen nach dem anderen.',

  // what it measured, in words
  'Nose highest now': 'Nase jetzt am höchsten',
  'Bank # nose level': 'Querlage # Nase gerade',
  'Bank # nose rising': 'Querlage # Nase steigt',
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
  'wanted # to #': 'gewünscht # bis #',
  'wanted # to #°': 'gewünscht # bis #°',
  'wanted at least #': 'gewünscht mindestens #',
  'wanted at most #': 'gewünscht höchstens #',
  'wanted at least #°': 'gewünscht mindestens #°',
  'wanted at most #°': 'gewünscht höchstens #°',
  'wanted #°': 'gewünscht #°',
  'Bank went from #° at #° of turn to #° at #°': 'Die Querlage ging von #° bei #° der Kurve auf #° bei #°',
  'The turn took # s, the numbers give about # s': 'Die Kurve dauerte # s, die Zahlen geben etwa # s',
  'The turn took # s': 'Die Kurve dauerte # s',
  'the numbers give about # s': 'die Zahlen geben etwa # s',
  'The nose was #° above level at #° of turn': 'Die Nase stand bei #° der Kurve #° über dem Horizont',
};
