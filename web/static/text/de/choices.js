// German of what is refused of a name, a remark or a choice. The keys are the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const choices = {
  'name.too-long': 'der Name ist {letters} Zeichen lang; er darf höchstens {most} haben',
  'name.station':
    'der Name des Platzes ist {name}; er muss 1 bis {most} Zeichen ohne Schrägstrich haben, etwa Seat 3',
  'name.encoding': 'der Name {name} ist nicht in UTF-8: ihn neu schreiben',
  'name.hidden': 'der Name {name} enthält das Zeichen {character}, das man nicht sieht: den Namen ohne es schreiben',
  'text.encoding': 'der Text ist nicht in UTF-8: ihn neu schreiben',
  'text.hidden': 'der Text enthält das Zeichen {character}, das man nicht sieht: ihn ohne es schreiben',
  'spoken.empty': 'es gibt nichts zu sagen: schreiben, was der Pilot hören soll',
  'spoken.too-long':
    'der Text hat {words} Wörter und {letters} Zeichen; höchstens {most} Wörter und {longest} Zeichen sind möglich',

  'line.heading': 'der Kurs ist {heading}; er muss zwischen 0 und 360 liegen',
  'line.unknown':
    'der jetzige Kurs ist noch nicht bekannt: auf die Daten warten, oder einen von 0 bis 360 wählen',
  'line.distance': 'der Bezugspunkt ist {distance} entfernt; die Weite muss zwischen {least} und {most} liegen',
  'about.where': 'where ist {where}; muss here, left oder right sein',
  'about.unknown':
    'es gibt keine Position mit rechtweisendem Kurs, von der aus der Punkt zu nehmen ist: auf den Datenstrom warten',
  'about.distance': 'der Punkt ist {distance} von der Fläche; muss zwischen {least} und {most} sein',
  'line.side': 'die Seite ist {side}; muss right, left oder leer sein',

  'station.mute': 'Platz {station} antwortet nicht; versuchen Sie es noch einmal',
  'command.unsure':
    'es ist nicht bekannt, ob Platz {station} dies behält: Ein Server oder der Speicher des Verbunds ' +
    'antwortete nicht rechtzeitig; sehen Sie nach, ob es da ist, bevor Sie es noch einmal tun',
  'station.gone': 'Platz {station} ist nicht mehr da',
  'station.prompts-unknown': '„prompts“ ist {prompts}; muss card, all, fade oder off sein',
  'station.nothing-flown': 'an {station} wurde noch nichts geflogen; es gibt keine Sitzung zu beenden',
  'station.in-leg': 'an {station} wird gerade ein Teil geflogen; danach übergeben',
  'station.no-demonstration': 'dieser Server fliegt keine Vorführungen',
  'station.private': 'der Platz {station} ist privat: sein Pilot teilt ihn gerade mit niemandem',
  'station.private-by-pilot':
    'nur der Pilot am Platz {station} kann ihn privat machen oder wieder teilen',
};
