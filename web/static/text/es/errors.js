// Spanish of the usual errors, as the maneuver cards list them.

/** @type {Readonly<Record<string, string>>} */
export const errors = {
  'Bank and nose out of step.': 'Alabeo y morro descoordinados.',
  'Bank and pull out of step: the nose is highest too early or too late.':
    'Alabear y tirar descoordinados: el morro está más alto demasiado pronto o demasiado tarde.',
  'Bank drifts: the height goes with it.': 'El alabeo varía: la altura va con él.',
  'Bank grows after it was set.': 'El alabeo crece después de puesto.',
  'Bank held past 90°, then rolled out in a hurry.': 'Alabeo mantenido más allá de 90°, luego quitado con prisa.',
  'Bank held past the top: the nose drops and the dive is too steep.':
    'Alabeo mantenido pasada la cima: el morro cae y el descenso es demasiado fuerte.',
  'Bank too shallow at the start: it stalls before the turn is done.':
    'Poco alabeo al principio: entra en pérdida antes de acabar el viraje.',
  'Bank too steep: little height is gained.': 'Demasiado alabeo: se gana poca altura.',
  'Eyes on the instruments instead of the horizon.': 'La vista en los instrumentos en vez de en el horizonte.',
  'Feet on the floor: slipping over the top, where the rudder is needed most.':
    'Los pies en el suelo: resbale por la cima, donde más falta hace el pedal.',
  'Height lost in the roll-in, or gained in the roll-out.': 'Altura perdida al entrar en el viraje, o ganada al salir.',
  'Height not regained at 180°.': 'Altura no recuperada a 180°.',
  'Height wanders while the eyes are inside.': 'La altura varía mientras la vista está dentro.',
  'Hurried: the loops are not of one size.': 'Con prisa: los bucles no son del mismo tamaño.',
  'More than 30° of bank at the top.': 'Más de 30° de alabeo en la cima.',
  'Nose rises during the roll-out, or sinks in it.': 'El morro sube al salir del viraje, o baja.',
  'Nose sinks in the roll-out: height given away.': 'El morro baja al salir del viraje: altura regalada.',
  'Nose too high too early: it stalls before the turn is done.':
    'Morro demasiado alto demasiado pronto: entra en pérdida antes de acabar el viraje.',
  'Nose too low: the speed stays well above the stall.':
    'Morro demasiado bajo: la velocidad queda muy por encima de la pérdida.',
  'Nose up too fast in the first 45°: the speed is gone before the top.':
    'Morro arriba demasiado rápido en los primeros 45°: la velocidad se acaba antes de la cima.',
  'Not done at all.': 'No se hicieron.',
  'Out of speed before the top, or far too much of it.': 'Sin velocidad antes de la cima, o con demasiada.',
  'Pull-out not finished: the leg ends low and fast.': 'Sin terminar de recoger: el tramo acaba bajo y rápido.',
  'Roll-out begun late: the turn ends past 180°.': 'Salida empezada tarde: el viraje acaba pasados los 180°.',
  'Roll-out begun too late or too early for the heading.':
    'Salida empezada demasiado tarde o demasiado pronto para el rumbo.',
  'Roll-out not begun at 90°.': 'Salida no empezada a 90°.',
  'Started too quickly: 45° comes before the nose is highest.':
    'Empezado demasiado rápido: los 45° llegan antes de que el morro esté más alto.',
  'The nose-low half shallower or steeper than the nose-high half.':
    'La mitad con morro bajo, más suave o más fuerte que la de morro alto.',
  'Too little right rudder as the speed falls.': 'Poco pedal derecho al caer la velocidad.',
  'Too shallow or too short to see behind the wing.': 'Con poco alabeo o demasiado corto para ver detrás del plano.',
  'Wings level before 180°.': 'Alas niveladas antes de 180°.',
  'Feet on the floor: the ball is out as long as the wings move.':
    'Pies en el suelo: la bola está fuera mientras se mueven las alas.',
  'Height lost as the bank grows, gained as it comes off.':
    'Altura perdida al crecer el alabeo, ganada al disminuir.',
  'Rolling in quickly and out slowly.': 'Entrar deprisa y salir despacio.',
  'Wings level before 180°: the bank came off too fast at first.':
    'Alas niveladas antes de 180°: el alabeo se quitó demasiado deprisa al principio.',
  'Feet on the floor as the speed falls.': 'Pies en el suelo mientras cae la velocidad.',
  'Nose up too fast: the speed is gone early.': 'Morro arriba demasiado deprisa: la velocidad se acaba pronto.',
  'Bank drifts after it was set.': 'El alabeo cambia después de fijarlo.',
  'Height lost, most of all at 45° of bank.': 'Altura perdida, sobre todo a 45° de alabeo.',
  'No look around before and in the turn.': 'Sin mirar alrededor antes del viraje y durante él.',
  'No power added for the drag of the bank: the airspeed falls.':
    'Sin potencia para la resistencia del viraje: la velocidad cae.',
  'Poor trim.': 'Mal compensado.',
  'Abrupt controls, too much change of height.': 'Mandos bruscos, cambios de altura excesivos.',
  'Airspeed not held: it moves with every change of bank unless the nose leads.':
    'Velocidad sin mantener: cambia con cada alabeo si el morro no va primero.',
  'Bank not varied for the wind: the circle drifts away from the point.':
    'Alabeo sin variar con el viento: el círculo se va del punto.',
  'Height kept while the ground speed changes: the pylon moves ahead or falls behind.':
    'Altura fija mientras cambia la velocidad sobre el suelo: el pilón se adelanta o se retrasa.',
  'More than 60° of bank downwind, because the circle is too small.':
    'Más de 60° de alabeo con viento de cola, porque el círculo es pequeño.',
  'Pivotal altitude not found.': 'Altitud pivotal no encontrada.',
  'Rolled out past the heading, or with a jump of the airspeed.':
    'Salida pasada del rumbo, o con un salto de velocidad.',
  'Rudder used to drag the wing to the pylon.': 'Pedal para arrastrar el ala hacia el pilón.',
  'Slip or skid while the bank changes.': 'Derrape o resbale al cambiar el alabeo.',
  'Slip or skid.': 'Derrape o resbale.',
  'Too close to the pylon: more than 40° of bank.': 'Demasiado cerca del pilón: más de 40° de alabeo.',
  'Turn not begun into the wind, or without allowance for drift between the pylons.':
    'Viraje no empezado contra el viento, o sin corregir la deriva entre los pilones.',
  'Turns miscounted.': 'Giros mal contados.',
};
