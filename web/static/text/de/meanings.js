// German of the causes and of the kinds of check, as commands list them. The pages do not load it.

/** @type {Readonly<Record<string, string>>} */
export const meanings = {
  // causes
  'Bank grew where it is to be held.': 'Querlage gewachsen, wo sie zu halten ist.',
  'Bank came off where it is to be held.': 'Querlage zurückgegangen, wo sie zu halten ist.',
  'Above the pivotal altitude: the pylon moved ahead.': 'Über der Pivothöhe: der Pylon wanderte nach vorn.',
  'Bank not varied for the wind: the distance from the point changed.':
    'Querlage nicht nach dem Wind geändert: der Abstand vom Punkt änderte sich.',
  'Below the pivotal altitude: the pylon fell behind.': 'Unter der Pivothöhe: der Pylon fiel zurück.',
  'Faster than at the entry.': 'Schneller als am Anfang.',
  'Fewer turns than the maneuver has.': 'Weniger Kreise, als das Manöver hat.',
  'Height kept where it is to follow the ground speed.':
    'Höhe gehalten, wo sie der Geschwindigkeit über Grund folgen soll.',
  'Power carried where it is to be at idle.': 'Leistung, wo Leerlauf sein soll.',
  'Slower than at the entry.': 'Langsamer als am Anfang.',
  'The airspeed went up and down.': 'Die Fahrt ging auf und ab.',
  'The distance from the point changed.': 'Der Abstand vom Punkt änderte sich.',
  'The pylon did not stay on the wing.': 'Der Pylon blieb nicht auf der Fläche.',
  'Too close to the pylon: too much bank from the start.': 'Zu nah am Pylon: von Anfang an zu viel Querlage.',
  'Too much bank.': 'Zu viel Querlage.',
  'Too little bank.': 'Zu wenig Querlage.',
  'Bank held too long, then taken off in a hurry.': 'Querlage zu lange gehalten, dann hastig ausgeleitet.',
  'Bank put on faster than it was taken off.': 'Schneller eingeleitet als ausgeleitet.',
  'Steepest bank before the middle of the turn.': 'Größte Querlage vor der Mitte der Kurve.',
  'Steepest bank after the middle of the turn.': 'Größte Querlage nach der Mitte der Kurve.',
  'Bank ahead of the turn.': 'Querlage eilt der Kurve voraus.',
  'Bank behind the turn.': 'Querlage hinkt der Kurve nach.',
  'Wings level before the half turn was done.': 'Flächen gerade, bevor die halbe Kurve fertig war.',
  'Rolled out before the heading.': 'Vor dem Kurs ausgeleitet.',
  'Rolled out after the heading: overshoot.': 'Nach dem Kurs ausgeleitet: überdreht.',
  'Roll-out begun too early.': 'Ausleiten zu früh begonnen.',
  'Roll-out begun too late.': 'Ausleiten zu spät begonnen.',
  'Nose still low where the descent is to be over.': 'Nase noch tief, wo das Sinken zu Ende sein soll.',
  'Power added on the way.': 'Unterwegs Leistung gegeben.',
  'Power taken off on the way.': 'Unterwegs Leistung weggenommen.',
  'Came out below the entry height.': 'Unter der Anfangshöhe herausgekommen.',
  'Came out above the entry height.': 'Über der Anfangshöhe herausgekommen.',
  'Height lost.': 'Höhe verloren.',
  'Height gained that should have been given back.': 'Höhe gewonnen, die zurückzugeben war.',
  'Speed left over at the end.': 'Am Ende war noch Fahrt übrig.',
  'Too slow at the end.': 'Am Ende zu langsam.',
  'Came out faster than it went in, power not touched on the way.':
    'Schneller heraus als hinein, Leistung unterwegs nicht berührt.',
  'Came out slower than it went in, power not touched on the way.':
    'Langsamer heraus als hinein, Leistung unterwegs nicht berührt.',
  'Too slow at the top, the nose not too high.': 'Am Scheitel zu langsam, Nase nicht zu hoch.',
  'Too fast at the top, the nose not too low.': 'Am Scheitel zu schnell, Nase nicht zu tief.',
  'Little height gained in a climbing turn.': 'Wenig Höhengewinn in einer steigenden Kurve.',
  'No turns to clear the area were seen before it.': 'Davor waren keine Kontrollkurven zu sehen.',
  'Two or more of speed, level flight and level wings were wrong before the entry.':
    'Vor Beginn stimmten mindestens zwei nicht: Fahrt, Horizontalflug, gerade Flächen.',
  'Entry speed too low.': 'Anfangsfahrt zu klein.',
  'Entry speed too high.': 'Anfangsfahrt zu groß.',
  'Descending before the entry.': 'Vor Beginn im Sinken.',
  'Climbing before the entry.': 'Vor Beginn im Steigen.',
  'Wings not level before the entry.': 'Flächen vor Beginn nicht gerade.',
  'The whole turn was flown too quickly.': 'Die ganze Kurve zu schnell geflogen.',
  'The whole turn was flown too slowly.': 'Die ganze Kurve zu langsam geflogen.',
  'The turn was given up before it was done.': 'Die Kurve abgebrochen, bevor sie fertig war.',
  'The aircraft came below the lowest height allowed.': 'Die Mindesthöhe unterschritten.',
  'A limit of the aircraft was passed: speed, load or bank.':
    'Eine Grenze des Flugzeugs überschritten: Fahrt, Last oder Querlage.',
  'The wing stalled, or came to the edge of it.': 'Strömungsabriss, oder kurz davor.',
  'A steep turn, and hardly a climb.': 'Eine Steilkurve und kaum ein Steigen.',
  'Nose too high in the climb.': 'Nase im Steigen zu hoch.',
  'Nose too low in the climb.': 'Nase im Steigen zu tief.',
  'Nose highest too early: the roll-in lagged behind the pull.':
    'Nase zu früh am höchsten: das Einleiten kam dem Ziehen nicht nach.',
  'Pulled up with the wings level, before the roll.': 'Mit geraden Flächen gezogen, vor dem Einleiten.',
  'Nose highest too late in the turn.': 'Nase zu spät in der Kurve am höchsten.',
  'Nose came down through the horizon too late.': 'Nase zu spät durch den Horizont gesunken.',
  'Nose fell fast through the horizon over the top.': 'Nase über dem Scheitel schnell durch den Horizont gefallen.',
  'Nose came down through the horizon too early.': 'Nase zu früh durch den Horizont gesunken.',
  'Nose, bank or speed held still where all of them are to change.':
    'Nase, Querlage oder Fahrt stand still, wo sich alle ändern sollen.',
  'Nose sank where it is to be held up.': 'Nase gesunken, wo sie oben zu halten ist.',
  'Nose raised where it is to be held.': 'Nase gehoben, wo sie zu halten ist.',
  'Two legs in the same direction.': 'Zwei Teile zur selben Seite.',
  'The legs differ: nose or bank not the same to both sides.':
    'Die Teile sind ungleich: Nase oder Querlage nicht auf beiden Seiten gleich.',
  'The legs together did not end on the heading they began on.':
    'Die Teile zusammen endeten nicht auf dem Anfangskurs.',
  'Fewer legs finished than the maneuver has.': 'Weniger Teile beendet, als das Manöver hat.',
  'Nose too low in the descent.': 'Nase im Sinken zu tief.',
  'The climbing and the descending half are not alike.': 'Steigende und sinkende Hälfte sind ungleich.',
  'Ball out of the middle: too little rudder, or feet on the floor.':
    'Kugel nicht in der Mitte: zu wenig Seitenruder, oder Füße am Boden.',
  'Roll or pull in jerks.': 'Ruckhaft gerollt oder gezogen.',

  // kinds of check
  'highest or lowest value in the recovery after the exit, less that at the exit':
    'größter oder kleinster Wert nach dem Ende, weniger der am Ende',
  'share of time with the ball within a distance of the middle, and its worst moment':
    'Anteil der Zeit mit der Kugel nahe der Mitte, und ihr schlechtester Moment',
  'change from entry to exit': 'Änderung von Beginn bis Ende',
  'turn angle where a value is crossed': 'Kurvenwinkel, bei dem ein Wert durchlaufen wird',
  'largest departure from the entry, or from the start of the span':
    'größte Abweichung vom Beginn oder vom Anfang des Abschnitts',
  'legs flown the same way as the one before': 'Teile zur selben Seite wie der davor',
  'largest departure at the end of any leg from the value at the first entry':
    'größte Abweichung am Ende eines Teils vom Wert beim ersten Beginn',
  'largest departure from a constant rate between the start of a span and the exit':
    'größte Abweichung von einer gleichmäßigen Rate zwischen Anfang des Abschnitts und Ende',
  'highest or lowest value in a span': 'größter oder kleinster Wert in einem Abschnitt',
  'turn angle of the highest or lowest value in a span':
    'Kurvenwinkel des größten oder kleinsten Werts in einem Abschnitt',
  'height gained from entry to exit over what the reference path gains':
    'Höhengewinn von Beginn bis Ende, im Verhältnis zur Bezugsbahn',
  'bank farthest from the aim: no steeper anywhere in the leg, no shallower within the span':
    'Querlage am weitesten vom Soll: nirgends im Teil steiler, nirgends im Abschnitt flacher',
  'time after the exit for which a quantity stays within a distance of its value there':
    'Zeit nach dem Ende, in der ein Wert nahe dem dort bleibt',
  'finished legs': 'beendete Teile',
  'mean bank between roll-in and roll-out': 'mittlere Querlage zwischen Ein- und Ausleiten',
  'highest value in a span less the lowest': 'höchster Wert eines Abschnitts weniger dem tiefsten',
  'largest departure of the distance from the point that is flown round, over its mean':
    'größte Abweichung des Abstands vom umflogenen Punkt, durch dessen Mittel',
  'mean angle by which the pylon was ahead of the wing line or behind it':
    'mittlerer Winkel, um den der Pylon vor oder hinter der Flächenlinie war',
  'mean over a span': 'Mittel über einen Abschnitt',
  'height at the end of a span less that at its start, over the greatest height gained':
    'Höhe am Ende eines Abschnitts weniger der am Anfang, im Verhältnis zum größten Höhengewinn',
  'time of the leg over the time of the reference path': 'Zeit des Teils im Verhältnis zu der der Bezugsbahn',
  'share of the time of a span in which a quantity stayed near one value for longest':
    'Anteil der Zeit eines Abschnitts, in dem ein Wert am längsten stillstand',
  'heading at the end against the first entry heading': 'Kurs am Ende gegen den ersten Anfangskurs',
  'largest reversal of what should only rise, or, with falling = true, only fall':
    'größte Umkehr dessen, was nur steigen oder, mit falling = true, nur fallen soll',
  'time of the slowest quarter of a span over that of the quickest':
    'Zeit des langsamsten Viertels eines Abschnitts im Verhältnis zum schnellsten',
  'largest rise above the value at the start of a span': 'größter Anstieg über den Wert am Anfang eines Abschnitts',
  'root mean square over a span': 'quadratisches Mittel über einen Abschnitt',
  'turn angle where the roll-out starts: change point of the bank rate':
    'Kurvenwinkel, bei dem das Ausleiten beginnt: wo sich die Rate der Querlage ändert',
  'rate of the roll-in over rate of the roll-out': 'Einleitrate im Verhältnis zur Ausleitrate',
  'mean over the set-up, before the leg': 'Mittel über die Zeit vor dem Beginn',
  'share of time within a band': 'Anteil der Zeit in einem Band',
  'spectral arc length of a rate: −1.4 is one smooth movement, less is rougher':
    'spektrale Bogenlänge einer Rate: −1,4 ist eine ruhige Bewegung, weniger ist unruhiger',
  'difference of a leg check between the legs of a series':
    'Unterschied eines Prüfpunkts zwischen den Teilen einer Folge',
  'depth below the value of the entry over height above it':
    'Tiefe unter dem Wert des Beginns im Verhältnis zur Höhe darüber',
  'value at a turn angle, or at the exit': 'Wert bei einem Kurvenwinkel oder am Ende',
  'Turn not begun into the wind.': 'Kurve nicht in den Wind begonnen.',
  'Bank not timed to the pylon: rolled in before it.':
    'Querlage nicht nach dem Pylon: vor ihm eingeleitet.',
  'Bank not timed to the pylon: rolled in after it.':
    'Querlage nicht nach dem Pylon: nach ihm eingeleitet.',
  'No allowance for drift between the pylons: not as far from each.':
    'Zwischen den Pylonen nicht vorgehalten: nicht von beiden gleich weit.',
  'Not as far from the one pylon as from the other.': 'Nicht von beiden Pylonen gleich weit.',
  'time until the pylon would be abeam, in the middle of the roll-in':
    'Zeit, bis der Pylon querab wäre, in der Mitte des Einleitens',
  'distance from the pylon where the turn began, in the middle of the roll-in':
    'Abstand vom Pylon, wo die Kurve begann, in der Mitte des Einleitens',
};
