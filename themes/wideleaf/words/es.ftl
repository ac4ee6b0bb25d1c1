# Las palabras de la interfaz en español, para páginas y hojas. Trato de usted, español neutro de América.
# Los mismos identificadores que en inglés, en el mismo orden; una prueba los compara.


## Componentes del entrenamiento

component-posture = Postura
component-balance = Equilibrio
component-strength = Fuerza
component-power = Potencia
component-posture-about = Manténgase erguido y con la espalda fuerte.
component-balance-about = Manténgase firme sobre sus pies.
component-strength-about = Fortalezca las piernas, las caderas y los brazos.
component-power-about = Muévase con un poco de rapidez y apoye con un golpe suave.


## Posiciones

position-lying = Acostado boca arriba
position-side-lying = Acostado de lado
position-prone = Acostado boca abajo
position-kneeling = De rodillas
position-hands-and-knees = Apoyado en manos y rodillas
position-seated = Sentado
position-standing = De pie
surface-floor = en el suelo
surface-bed = en una cama firme
position-on = { $position }, { $surface }


## De qué se sostienen las manos

support-counter = la encimera de la cocina
support-wall = una pared
support-chair = una silla firme
support-doorway = el marco de una puerta
support-rail = un pasamanos
support-partner = una persona a su lado
support-none = sin nada de qué sostenerse


## Lo que un movimiento exige del cuerpo

demand-floor-transfer = bajar al suelo y volver a levantarse
demand-lying-flat = acostarse boca arriba sin almohada
demand-lying-prone = acostarse boca abajo
demand-kneeling = ponerse de rodillas
demand-end-range-flexion = doblar mucho la espalda hacia adelante
demand-loaded-flexion = doblar la espalda hacia adelante con peso
demand-end-range-twist = girar la espalda hasta el final
demand-end-range-extension = doblarse hacia atrás hasta el final
demand-overhead-reach = estirar los brazos por encima de la cabeza
demand-overhead-load = levantar peso por encima de la cabeza
demand-wrist-load = apoyarse en las manos
demand-grip = apretar algo con la mano
demand-deep-knee-bend = doblar mucho las rodillas
demand-deep-hip-bend = doblar mucho las caderas
demand-crossing-midline = cruzar las piernas
demand-hip-extension = llevar una pierna hacia atrás
demand-hip-turn-in = girar una pierna hacia adentro desde la cadera
demand-single-leg-stance = pararse en una sola pierna
demand-narrow-stance = pararse con los pies juntos o en línea
demand-tiptoe = pararse en la punta de los pies
demand-step-back = dar pasos hacia atrás
demand-step-down = bajar de un escalón
demand-hands-full = estar de pie con las dos manos ocupadas
demand-eyes-closed = cerrar los ojos
demand-head-turn = girar la cabeza
demand-look-up = echar la cabeza hacia atrás para mirar arriba
demand-quick-head-move = mover la cabeza con rapidez
demand-head-below-heart = bajar la cabeza más que el corazón
demand-quick-rise = levantarse con rapidez
demand-lie-to-sit = sentarse después de estar acostado
demand-long-hold = quedarse quieto mucho tiempo
demand-breath-strain = hacer fuerza o aguantar la respiración
demand-heavy-load = levantar mucho peso
demand-dual-task = hacer dos cosas a la vez
demand-impact-low = un golpe suave, como al dejar caer los talones
demand-impact-moderate = un golpe más firme, como un pisotón fuerte o un salto pequeño
demand-impact-high = un golpe fuerte, como al saltar


## Precauciones. Cada una se lee bien después de "Si tiene".

precaution-low-bone-density = huesos débiles (baja densidad ósea)
precaution-spine-fracture = una fractura en un hueso de la columna
precaution-other-fracture = un hueso que se rompió en una caída pequeña
precaution-rounded-upper-back = la parte alta de la espalda encorvada
precaution-high-blood-pressure = presión alta
precaution-heart-or-lung = una enfermedad del corazón o de los pulmones
precaution-hernia-or-aneurysm = una hernia, un aneurisma (un vaso sanguíneo grande ensanchado) o una válvula del corazón estrecha
precaution-dizzy-on-standing = mareo al ponerse de pie
precaution-unsteady = poco equilibrio
precaution-no-floor = dificultad para bajar al suelo o levantarse de él
precaution-hip-replacement = un reemplazo de cadera
precaution-knee-replacement = un reemplazo de rodilla
precaution-knee-arthritis = rodillas gastadas o doloridas (artrosis)
precaution-hip-arthritis = caderas gastadas o doloridas (artrosis)
precaution-wrist-fracture = una muñeca rota o dolorida
precaution-shoulder-pain = dolor de hombro
precaution-pelvic-floor-symptoms = escapes de orina o peso en la parte baja de la pelvis
precaution-dizziness = mareos
precaution-glaucoma = glaucoma (presión alta en el ojo)
precaution-eye-surgery = una operación reciente o un sangrado en un ojo
precaution-recent-surgery = una operación reciente o una fractura que todavía está sanando
precaution-spinal-stenosis = el canal de la columna estrecho (estenosis)
precaution-foot-numbness = los pies dormidos o con poca sensibilidad
precaution-parkinsons = enfermedad de Parkinson
precaution-stroke = secuelas de un derrame cerebral
precaution-memory = problemas de memoria
precaution-bone-cancer = cáncer en un hueso


## Avisos: con qué rigor se toma cada uno, y para quién es

level-stop = No haga este ejercicio.
level-adapt = Hágalo así.
level-ask = Pregunte antes a su profesional de salud.
card-ask = Consulte primero con su profesional de salud. Quizá necesite otra manera: pídanos una hoja hecha para usted.
caution-everyone = Para todas las personas
caution-for = Si tiene { $who }


## Secciones de un ejercicio. Los títulos de las entradas llevan estos nombres.

section-set-up = Prepárese
section-move = Muévase
section-finish = Termine
section-feel = Qué debe sentir
section-watch-for = Fíjese


## Rótulos de un ejercicio

make-it-easier = Más fácil
make-it-harder = Más difícil
another-safe-way = Otra forma segura
take-care = Tenga cuidado
how-much-how-often = Cuánto y cada cuánto
what-you-need = Qué necesita
need-nothing = Sin equipo
position-label = Posición
hold-on-to = Sosténgase de
focus-label = Esta semana
also-called = También se llama: { $names }
exercise-of = Ejercicio { $number } de { $count }
try-exercise = Pruebe este: { $title }
harder-only-when-ready = Solo cuando este le resulte fácil y seguro.
harder-not-for = No es para usted si tiene { $who }.
easier-first = Empiece aquí si tiene dudas.
ways-none = Su profesional de salud puede mostrarle una.
figure-of = Imagen: { $title }
reviewed-line = Revisado por { $name } el { $date }.
reviewed-not-yet = Todavía no lo ha revisado un profesional de salud.
approval-changed = Ha cambiado desde que se revisó.
evidence-label = En qué se basa


## Dosis: números

dose-range = { $low } a { $high }
dose-seconds =
    { $count ->
        [one] { $amount } segundo
       *[other] { $amount } segundos
    }
dose-minutes =
    { $count ->
        [one] { $amount } minuto
       *[other] { $amount } minutos
    }
dose-minutes-and-seconds = { $minutes } y { $seconds }

## Dosis: las palabras junto a las cifras grandes. $count es el número mayor.

dose-unit-reps =
    { $count ->
        [one] vez
       *[other] veces
    }
dose-unit-reps-each =
    { $count ->
        [one] vez de cada lado
       *[other] veces de cada lado
    }
dose-unit-reps-alternating =
    { $count ->
        [one] vez, cambiando de lado
       *[other] veces en total, cambiando de lado
    }
dose-unit-reps-alternating-sets =
    { $count ->
        [one] vez en cada serie, cambiando de lado
       *[other] veces en cada serie, cambiando de lado
    }
dose-unit-sets =
    { $count ->
        [one] serie
       *[other] series
    }
dose-unit-days =
    { $count ->
        [one] día por semana
       *[other] días por semana
    }
dose-unit-hold-seconds =
    { $count ->
        [one] segundo cada vez, sin moverse
       *[other] segundos cada vez, sin moverse
    }
dose-unit-hold-minutes =
    { $count ->
        [one] minuto cada vez, sin moverse
       *[other] minutos cada vez, sin moverse
    }
dose-unit-seconds =
    { $count ->
        [one] segundo
       *[other] segundos
    }
dose-unit-minutes =
    { $count ->
        [one] minuto
       *[other] minutos
    }
dose-unit-time = { $unit } { $extent }
dose-extent = en total
dose-extent-each = de cada lado
dose-extent-alternating = en total, cambiando de lado
dose-extent-sets = en cada serie
dose-extent-sets-each = de cada lado, en cada serie
dose-extent-sets-alternating = en cada serie, cambiando de lado

## Dosis: las frases de una línea, como en "10 veces, 2 series, 3 a 4 días por semana"

dose-reps =
    { $count ->
        [one] { $amount } vez
       *[other] { $amount } veces
    }
dose-reps-each =
    { $count ->
        [one] { $amount } vez de cada lado
       *[other] { $amount } veces de cada lado
    }
dose-reps-alternating =
    { $count ->
        [one] { $amount } vez, cambiando de lado
       *[other] { $amount } veces en total, cambiando de lado
    }
dose-reps-alternating-sets =
    { $count ->
        [one] { $amount } vez en cada serie, cambiando de lado
       *[other] { $amount } veces en cada serie, cambiando de lado
    }
dose-sets =
    { $count ->
        [one] { $amount } serie
       *[other] { $amount } series
    }
dose-days =
    { $count ->
        [one] { $amount } día por semana
       *[other] { $amount } días por semana
    }
dose-days-every = todos los días
dose-hold = mantenga { $time }
dose-hold-each = mantenga { $time } de cada lado
dose-hold-alternating = mantenga { $time }, cambiando de lado
dose-hold-each-time = mantenga { $time } cada vez
dose-time = { $time } en total
dose-time-each = { $time } de cada lado
dose-time-alternating = { $time } en total, cambiando de lado
dose-sets-of =
    { $count ->
        [one] { $amount } serie de { $time }
       *[other] { $amount } series de { $time }
    }
dose-sets-of-each =
    { $count ->
        [one] { $amount } serie de { $time } de cada lado
       *[other] { $amount } series de { $time } de cada lado
    }
dose-sets-of-alternating =
    { $count ->
        [one] { $amount } serie de { $time }, cambiando de lado
       *[other] { $amount } series de { $time }, cambiando de lado
    }
dose-within = en { $time }
dose-within-each = en { $time } para cada lado
dose-separator = { ", " }

## Dosis: las líneas pequeñas debajo de las cifras

dose-label-time = Tiempo
dose-label-sides = Lados
dose-label-hold = Mantenga
dose-label-rest = Descanso
dose-label-pace = Ritmo
dose-label-days = Cada cuánto
dose-label-rest-days = Días libres
dose-label-effort = Esfuerzo
dose-sides-both-together = Los dos lados a la vez
dose-sides-each = Primero un lado y luego el otro
dose-sides-alternating = Cambie de lado cada vez
dose-rest-between-sets = { $time } entre series
dose-rest-between-reps = { $time } entre una vez y otra
dose-pace = { $time } cada vez
dose-rest-days =
    { $count ->
        [one] { $amount } día de descanso en medio
       *[other] { $amount } días de descanso en medio
    }
dose-effort = { $amount } de 10
dose-effort-scale = 0 es reposo. 10 es todo lo que usted puede.
dose-changed-this-week = Cambia esta semana.


## Los minutos y la semana de ejercicios. $minutes es "4 minutos" o "20 a 30 minutos", $days es "3 días por semana".

minutes-about = Alrededor de { $minutes }
practice-a-day = Alrededor de { $minutes } al día, { $days }.
practice-every-day = Alrededor de { $minutes } todos los días.
practice-together = Alrededor de { $minutes } para todos los ejercicios juntos.
practice-title = Una forma de repartir sus ejercicios
practice-title-own = Su semana
practice-day = Día
practice-what = Qué hace
practice-rest-day = Día de descanso
practice-other-days = También puede elegir otros días.
practice-same-muscles = { $exercises } trabajan algunos de los mismos músculos. Hágalos el mismo día, o descanse al menos 1 día entre ellos.
practice-rest =
    { $count ->
        [one] { $exercises }: descanse al menos { $amount } día antes de repetir el mismo ejercicio.
       *[other] { $exercises }: descanse al menos { $amount } días antes de repetir el mismo ejercicio.
    }


## Seguridad: señales para parar y pedir ayuda

safety-title = Su seguridad
safety-signs-title = Señales para parar y pedir ayuda
safety-before-title = Antes de empezar
safety-stop-now = Pare enseguida si algo no está bien. No espere.
# Al lado está "Llame al 911."
safety-short = Pare enseguida si siente dolor, se marea o le falta el aire. El dolor o la presión en el pecho, un desmayo, la cara caída de un lado o un golpe en la cabeza son una emergencia.
safety-all-signs = Vea todas las señales para parar
safety-page-lead = Lea esta página antes del primer ejercicio. Guárdela donde pueda encontrarla.

safety-emergency-title = Pare y pida ayuda de emergencia
safety-emergency-call = Llame al { $number }.
safety-emergency-call-any = Llame al número de emergencias.
safety-emergency-chest = Dolor o presión en el pecho
safety-emergency-stroke = La cara caída de un lado, un brazo débil o palabras arrastradas
safety-emergency-head = Se cae y se golpea la cabeza, aunque se sienta bien. Llame enseguida, sobre todo si toma anticoagulantes.
safety-emergency-fall = Se cae y tiene mucho dolor, o no puede pararse o caminar
safety-emergency-faint = Se desmaya
safety-emergency-arm = Un dolor nuevo en el cuello, el hombro o el brazo que no se quita al descansar
safety-emergency-legs = Debilidad o adormecimiento nuevo en las piernas, o adormecimiento entre las piernas
safety-emergency-bladder = De repente no puede controlar la orina o el intestino, o de repente no puede orinar
safety-emergency-rest = Falta de aire, un corazón que aletea o un sudor frío que no mejora al descansar

safety-stop-title = Pare, siéntese o acuéstese, y llame a su profesional de salud
safety-stop-back = Un dolor de espalda nuevo y repentino, o un dolor de espalda que empeora. Puede ser una fractura en un hueso de la columna.
safety-stop-dizzy = Siente mareo, náuseas o la cabeza ligera, o siente que se desmaya
safety-stop-breath = Le falta el aire para hablar
safety-stop-heart = El corazón se acelera, se salta latidos o aletea hasta que descansa
safety-stop-sweat = Un sudor frío que pasa al descansar
safety-stop-sharp = Un calambre, o un dolor agudo en una articulación, un pie o una pierna
safety-stop-fall = Una caída, aunque sea pequeña

safety-tell-title = Cuéntelo en su próxima llamada o visita
safety-tell-height = Ha perdido más de 3 centímetros de estatura
safety-tell-stoop = La espalda se le está encorvando más
safety-tell-sore = Después de 3 días todavía está dolorido. Haga menos.
safety-tell-new = Una enfermedad nueva, una medicina nueva o una operación

## Seguridad: consejos generales

safety-ask-title = Pregunte antes
safety-ask-lead = Hable con su médico o su fisioterapeuta antes de empezar si algo de esto le pasa o le ha pasado:
safety-ask-new = Huesos débiles, y no suele hacer ejercicio
safety-ask-spine = Una fractura en un hueso de la columna. Vea a un fisioterapeuta.
safety-ask-fracture = Un hueso que se rompió en una caída pequeña, o cáncer en un hueso
safety-ask-chest = Dolor de pecho, o un corazón que aletea o se salta latidos
safety-ask-breath = Mucha falta de aire, o falta de aire al acostarse
safety-ask-illness = Una enfermedad del corazón, los pulmones o los riñones, o diabetes
safety-ask-pressure = Presión alta que no está controlada
safety-ask-vessel = Un coágulo, o un vaso sanguíneo grande ensanchado
safety-ask-weight = Fuma, o tiene mucho sobrepeso
safety-ask-fall = Una caída en el último año, o un dolor que dejó una caída
safety-ask-dizzy = Mareo, ahora o al ponerse de pie
safety-ask-nerves = Un derrame cerebral, enfermedad de Parkinson o problemas de memoria
safety-ask-surgery = Una cadera o rodilla nueva, o una operación o un hueso roto en los últimos 3 meses
safety-ask-eye = Sangrado en un ojo, o una operación de ojo
safety-ask-hernia = Una hernia que duele, o una válvula del corazón estrecha
safety-ask-sore = Una articulación hinchada, o una llaga en el pie que no sana
safety-ask-symptom = Pérdida de peso o un problema nuevo sin causa conocida
# Lo mismo para las tarjetas, que tienen pocas páginas.
safety-brief-title = Consulte antes con su médico si tiene
safety-brief-illness = Una enfermedad del corazón, los pulmones, los riñones, los vasos sanguíneos, los nervios o los ojos, diabetes, cáncer o presión alta
safety-brief-signs = Dolor en el pecho, falta de aire, mareos, caídas
safety-brief-bones = Un hueso roto, una prótesis o una operación
safety-brief-new = Una fractura en la columna, o huesos débiles y poca práctica
safety-brief-habits = El hábito de fumar o mucho sobrepeso
safety-brief-other = Una hernia, una llaga o un problema nuevo
safety-brief-disclaimer = Es un consejo general. Lo que diga su profesional de salud va primero.
safety-ask-fever = No haga ejercicio con fiebre o una infección.

safety-ready-title = Prepárese
safety-ready-support = Póngase junto a algo que no se mueva, como la encimera de la cocina.
safety-ready-shoes = Use zapatos que le queden bien y no resbalen.
safety-ready-floor = Quite del suelo alfombras, cables y mascotas.
safety-ready-phone = Tenga un teléfono al alcance de la mano.
safety-ready-water = Tenga cerca una silla para descansar.

safety-during-title = Mientras se mueve
safety-during-start = Empiece con suavidad. Aumente poco a poco, a lo largo de las semanas.
safety-during-breathe = Suelte el aire al hacer el esfuerzo y tómelo al volver. Nunca aguante la respiración.
safety-during-bend = Dóblese por las caderas con la espalda larga. No encorve ni gire la espalda.
safety-during-rest = Descanse todo lo que necesite.

safety-normal-title = Qué es normal
safety-normal-sore = Es normal tener los músculos algo doloridos unos días y sentir un poco de cansancio.
safety-not-normal = No es normal el agotamiento, el dolor en las articulaciones ni el dolor agudo. Pare y pregunte.

## Seguridad: la advertencia

safety-disclaimer = Estas páginas dan consejos generales. No reemplazan el consejo de su propio profesional de salud. Si no coinciden, haga lo que le diga su profesional.


## Marco de la página

skip-to-content = Ir al contenido principal
nav-label = Principal
nav-home = Inicio
nav-exercises = Ejercicios
nav-safety = Seguridad
nav-evidence = Evidencia
breadcrumb-label = Usted está aquí
footer-prepared = Preparado por
footer-contact = ¿Tiene preguntas? Comuníquese.
footer-phone = Teléfono
footer-email = Correo
footer-updated = Esta página se revisó por última vez el { $date }.
footer-plan =
    { $count ->
        [one] Para educadores: el plan de este programa
       *[other] Para educadores: el plan de cada programa
    }
page-title = { $title } - { $site }
draft-mark = Borrador
draft-about = Esto es un borrador. No está aprobado para pacientes. No haga ejercicio con él.
print-label = En papel
calendar-link = Agregue las semanas a su calendario
feed-link = Siga las semanas en un lector de noticias
handout-link =
    { $pages ->
        [one] { $what }: { $size } puntos, papel { $paper }, { $pages } página (PDF)
       *[other] { $what }: { $size } puntos, papel { $paper }, { $pages } páginas (PDF)
    }
handout-link-when-asked = { $what }: { $size } puntos, papel { $paper } (PDF)
handout-cards = Imprima esto en letra grande
handout-full = Imprima todo, con lo que debe sentir y por qué
handout-one-page = Imprima la semana en una página
paper-a4 = A4
paper-letter = carta
new-window-none = Se abre en otro sitio web


## Inicio

home-this-week = Esta semana
home-first-week = La primera semana
home-open-week = Abra la semana { $number }
home-all-series = Todos los programas
home-weeks =
    { $count ->
        [one] { $count } semana
       *[other] { $count } semanas
    }
home-starts = Empieza el { $date }
home-new-title = ¿Es su primera vez?
home-new-text = Lea primero la página de seguridad. Toma 2 minutos.
home-safety-link = Vaya a la página de seguridad
home-library-link = Vea todos los ejercicios


## Programa

series-label = Programa
series-audience = Para quién es
series-starts = Empieza el { $date }
series-weeks-title = Semana por semana
coverage-caption = Ejercicios de cada semana, por tipo
coverage-how-to-read = Cada fila es una semana. Cada columna es un tipo de ejercicio. Una casilla con línea punteada significa que no hay ejercicio de ese tipo.
coverage-week = Semana
coverage-gap = Ninguno
coverage-unread = No se pudo leer todo
coverage-region = Tabla de las semanas
serves-title = Escrito con cuidado para personas que tienen


## Semana

week-number = Semana { $number }
week-title = Semana { $number }: { $title }
week-of = Semana del { $date }
week-glance-title = La semana de un vistazo
week-exercises-title = Los ejercicios
week-previous = Semana anterior
week-next = Semana siguiente
week-nav-label = Otras semanas
week-back-to-series = Todas las semanas de { $series }
question-title = La pregunta de la semana
video-title = El video
video-watch = Vea el video ({ $length })
# $host is where a video elsewhere is, such as "video.example".
video-elsewhere = El video está en { $host }. Se abre allí cuando usted pulsa el botón.
video-play = Ponga el video ({ $length })
video-here = Se ve en esta página. Empieza solo cuando usted lo pide.
video-captions = El video tiene subtítulos.
# $language is the name of a language.
video-captions-label = Subtítulos: { $language }
video-chapters-title = Partes del video
video-chapter-welcome = Bienvenida
video-at = En el video, en el minuto { $time }


## Lo que se dice en un video

transcript-title = Lo que se dice en el video
transcript-open = Léalo aquí
language-en = inglés
language-es = español

## Avisos y calendarios

feed-exercise = { $title }: { $dose }
# $exercises is a list such as "wall slide and heel drop".
calendar-practice = Práctica: { $exercises }
series-calendar = Agregue este programa a su calendario
series-feed = Siga este programa en un lector de noticias
preview-alt = { $week }, { $site }

## Una semana en pocas palabras, para la descripción de un video y para una carta

# $who reads as in "If you have a break in the spine".
digest-caution = { $who }: { $level } { $text }
digest-page = La página de esta semana
digest-open-page = Abra la página de esta semana
digest-open-video = Vea el video
# $names is a list such as "Ida and Joan".
thanks-line = Gracias a { $names }.

## Lo que guarda un dispositivo

footer-saved = Leer sin internet
newer-ready = Hay una versión más nueva de estas páginas.
newer-show = Muestre la versión nueva
saved-title = Leer sin internet
saved-lead = Usted puede leer estas páginas sin internet. Después de abrirlas una vez, su dispositivo las guarda.
saved-looking = Mirando lo que este dispositivo ha guardado.
saved-saving = Su dispositivo está guardando estas páginas. Siga en línea un momento.
saved-all = Estas páginas están guardadas en este dispositivo.
saved-some = Algunas de estas páginas están guardadas en este dispositivo. El internet se cortó antes de las demás.
saved-full = En este dispositivo no hay espacio para todas estas páginas. Las demás necesitan internet.
saved-broken = Estas páginas no están guardadas. El internet se cortó, o este dispositivo no las dejó entrar.
saved-removed = Las páginas guardadas están quitadas. Nada se guarda otra vez hasta que usted lo pida.
saved-forgetful = Las páginas guardadas están quitadas. Este navegador no puede recordar su deseo: en su próxima visita se guardan otra vez.
saved-refused = Este navegador no deja guardar las páginas. Una ventana privada hace eso. Las páginas necesitan internet.
saved-cannot = Este navegador no puede guardar estas páginas. Necesitan internet.
saved-file = Usted abrió estas páginas desde un archivo. No necesitan internet mientras tenga el archivo.
saved-no-scripts = Su dispositivo no guarda nada, porque en este navegador los programas de las páginas están apagados. Estas páginas necesitan internet.
saved-count = Ahora en este dispositivo: páginas { "{pages}" }, hojas { "{sheets}" }.
saved-keep = Guarde estas páginas en este dispositivo
saved-again = Intente otra vez
saved-remove = Quite las páginas guardadas
saved-what-title = Lo que guarda su dispositivo
saved-general = La primera página, la lista de ejercicios, las páginas del menú, las señales para parar, “Mis días” y esta página
saved-week = Esta semana con sus ejercicios y sus hojas para imprimir
saved-opened = Cada otra página que usted haya abierto, desde ese momento
saved-not-video = Los videos no se guardan. Necesitan internet.
saved-newer-title = Cuando algo cambia
saved-newer = Cuando estas páginas cambian, una línea arriba en la página lo dice. Usted elige cuándo ver la versión nueva.

## Página de un ejercicio

ladder-title = Su lugar en la escalera
ladder-about = Cada peldaño es un poco más difícil que el anterior. El más fácil va primero.
ladder-here = Usted está aquí
ladder-rung = Peldaño { $number } de { $count }
ladder-drawing = La escalera de { $title }
ladder-drawing-about = Una escalera con { $count } peldaños, el más fácil arriba. { $title } está en el peldaño { $number }.
weeks-title = Semanas que lo usan
weeks-none = Ninguna semana lo usa todavía.
exercise-back-to-library = Todos los ejercicios
figure-move = Ver el movimiento
figure-stop = Detener el movimiento
figure-poses = Ver las poses una por una


## Biblioteca

library-title = Ejercicios
library-lead = Todos los ejercicios en una lista. Cada uno tiene una forma más fácil y sus avisos.
library-filter-title = Busque un ejercicio
library-search = Palabras que buscar
library-component = Tipo de ejercicio
library-position = Posición
library-support = Algo de qué sostenerse
library-equipment = Qué necesita
library-precaution = Con consejos para personas con
library-precaution-help = Muestra los ejercicios que tienen una forma para estas personas. De todos modos, pregunte a su profesional de salud.
library-any = Todos
library-clear = Ver todos otra vez
library-count-none = No se encontró ningún ejercicio. Quite una de las opciones.
library-count-one = Se encontró 1 ejercicio.
library-count-many = Se encontraron { "{n}" } ejercicios.
library-results = Ejercicios encontrados
library-more = Mostrar más ejercicios
library-find-clear = Empezar de nuevo
library-find-lead = Todos los ejercicios, por tipo. Cada uno tiene una forma más fácil y sus avisos.
library-part-lead = Ejercicios de un tipo. Cada uno tiene una forma más fácil y sus avisos.
library-part-filter-title = Busque un ejercicio en esta página
library-part-count-none = No se encontró ningún ejercicio en esta página. Quite una de las opciones, o mire todos los ejercicios.
library-part-count-one = Se encontró 1 ejercicio en esta página.
library-part-count-many = Se encontraron { "{n}" } ejercicios en esta página.


## Lists of exercises that stand on several pages. $list is what the whole list is called, $titles is such as
## "de Chin tuck a Wall slide": the first exercise and the last.

part-kinds = Tipos de ejercicio
part-other-kinds = Otros tipos de ejercicio
part-nav-label = Más de este tipo
part-title-only = { $list }: { $component }
part-title = { $list }: { $component }, página { $number } de { $count }
part-link-only = { $component }: { $exercises }
part-link = { $component }, página { $number }: { $titles }
part-titles = de { $first } a { $last }
part-previous = Página anterior: { $titles }
part-next = Página siguiente: { $titles }
part-exercises =
    { $count ->
        [one] { $amount } ejercicio
       *[other] { $amount } ejercicios
    }


## Una hoja para una persona: qué se dejó fuera y por qué. $demand se lee como en "incluye ponerse de rodillas";
# $things es una lista, como "banda elástica y dos almohadas".

for-you = Para usted
left-out-title = Lo que no va en su hoja
left-out-stop = { $title }: su aviso de seguridad dice que no lo haga si tiene { $precaution }.
left-out-avoid = { $title }: incluye { $demand }. No es para usted si tiene { $precaution }.
left-out-modify = { $title }: incluye { $demand }. Si tiene { $precaution }, pida a su profesional de salud una forma más segura.
left-out-ask = { $title }: incluye { $demand }. Si tiene { $precaution }, pregunte a su profesional de salud antes de hacerlo.
left-out-ask-first = { $title }: pregunte a su profesional de salud antes de hacerlo, porque tiene { $precaution }.
left-out-other-way = { $title }: si tiene { $precaution }, hay que hacerlo de otra forma, y no encontramos ninguna que sea segura para usted.
left-out-things = { $title }: necesita algo que usted no tiene: { $things }.
left-out-no-room = { $title }: no cabe en su semana.
left-out-unread = { $title }: una parte no se pudo leer, y no pudimos comprobar que sea seguro para usted.
left-out-unknown = { $title }: no pudimos comprobar que sea seguro para usted.


## Evidencia

evidence-title = Evidencia
evidence-lead = Estos son los estudios y las guías que citan los ejercicios.
evidence-used-in = Se usa en
evidence-more =
    { $count ->
        [one] Y en { $amount } página más.
       *[other] Y en { $amount } páginas más.
    }
evidence-read = Léalo en { $place }
evidence-and-others = y otros
evidence-cite = Fuente: { $source }


## The plan, a page for educators

plan-title = El plan
plan-for-educators = Para educadores
plan-not-for-clients = Esta página es para quienes preparan las semanas. Si usted hace los ejercicios en casa, no necesita leerla.
plan-about = Todos los números se calculan a partir de las dosis que usted escribió. Si una dosis no dice algo, se usa un valor habitual. No dicen nada de una persona concreta: las normas locales y su propio criterio van primero.
plan-contents = En esta página
plan-parts = Cada serie
plan-part-title = El plan: { $title }
plan-accepted = Hallazgos de seguridad aceptados
plan-accepted-about = Van contra una regla de seguridad, y alguien responde de cada uno. Revíselos de vez en cuando.
plan-accepted-line = Aceptado por { $by } el { $date }, { $age }: { $reason }
plan-accepted-today = hoy
plan-accepted-days =
    { $count ->
        [one] hace { $amount } día
       *[other] hace { $amount } días
    }
plan-accepted-weeks =
    { $count ->
        [one] hace { $amount } semana
       *[other] hace { $amount } semanas
    }
plan-no-series = Todavía no hay ningún programa.
plan-no-weeks = Este programa todavía no tiene ninguna semana.
plan-coverage = Qué se trabaja cada semana
plan-load = Minutos y golpes
plan-load-about = Una sesión tiene todos los ejercicios de la semana. Una semana tiene cada uno en todos sus días. Los golpes son los de dejar caer los talones, dar pisotones o saltar, y cuentan los dos pies. La parte llena de una barra muestra la cantidad más baja; el contorno, la más alta.
plan-session-minutes = Minutos por sesión
plan-week-minutes = Minutos por semana
plan-session-landings = Golpes por sesión
plan-week-landings = Golpes por semana
plan-chart-about = Una barra por semana, del valor más bajo al más alto. La tabla de números dice lo mismo.
plan-figures = Los números de cada semana
plan-landings-low = { $amount } suaves
plan-landings-moderate = { $amount } más firmes
plan-landings-high = { $amount } fuertes
plan-grade = Grado de Flesch-Kincaid
plan-smog = Grado SMOG
plan-reading-about = Los dos grados son los del texto propio de la semana (bienvenida, indicaciones y pregunta), en años de escuela.
plan-unmeasured-language = Sin medir: solo se miden los textos en inglés
plan-unmeasured-short = Sin medir: es demasiado corto
plan-not-known = no se sabe
plan-unknown-list = No se sabe: no se pudo leer la lista de ejercicios
plan-unknown-missing = No se sabe: no existe { $exercise }
plan-unknown-unread = No se sabe: no se pudo leer { $exercise }
plan-unknown-twice = No se sabe: { $exercise } está dos veces en esta semana
plan-weeks = Semanas { $first } a { $last }
plan-ladders = Escaleras
plan-no-ladder = Ningún ejercicio de estas semanas está en una escalera.
plan-ladder = { $component }: de { $first } a { $last }
plan-ladder-about = De izquierda a derecha, las semanas; de arriba abajo, los peldaños. Una casilla llena es una semana en ese peldaño. La lista dice lo mismo.
plan-rung-unused = En ninguna semana
plan-targets = Metas
plan-targets-about = Una meta se cumple cuando la alcanza la parte baja de las dosis. Puede cumplirse cuando solo la alcanza la parte alta. En la fuerza, cada semana muestra del valor más bajo al más alto de sus ejercicios. Las fuentes no coinciden, así que cada meta se puede fijar para el sitio o para un programa.
plan-target-posture-days = Días de postura por semana
plan-target-balance-days = Días de equilibrio por semana
plan-target-balance-minutes = Minutos de equilibrio por semana
plan-target-strength-days = Días de fuerza por semana
plan-target-strength-sets = Series de cada ejercicio de fuerza
plan-target-strength-reps = Repeticiones en una serie de fuerza
plan-target-impact-days = Días con golpes por semana
plan-target-impacts = Golpes por sesión
plan-aim = Meta: { $amount }.
plan-aim-none = Sin meta.
plan-aim-series = Fijada para este programa. La habitual es { $amount }: { $source }.
plan-aim-site = Fijada para este sitio. La habitual es { $amount }: { $source }.
plan-aim-default = Es la habitual: { $source }.
plan-aim-not-for = Este programa es también para personas con { $precaution }, y la meta habitual no está pensada para ellas: { $source }.
plan-aim-unread = No se pudieron leer las metas de este programa, o para quién es.
plan-met =
    { $count ->
        [one] Se cumple en { $met } de la única semana que lo tiene.
       *[other] Se cumple en { $met } de las { $count } semanas que lo tienen.
    }
plan-perhaps-met =
    { $count ->
        [one] Puede cumplirse en { $amount } más.
       *[other] Puede cumplirse en { $amount } más.
    }
plan-perhaps = puede cumplirse
plan-below = por debajo
plan-above = por encima
plan-below-and-above = por debajo y por encima
plan-nothing = nada
plan-limits = Límites
plan-words = Textos para pegar
plan-words-about = Para cada semana: lo que va debajo del video y una carta a sus lectores.
plan-words-video = Texto debajo del video
plan-words-letter = Carta, como texto simple
plan-words-letter-page = Carta, para un programa de correo
plan-limit-regions = Estas son las regiones del cuerpo que trabajan los ejercicios de fuerza de cada semana. Se aconseja un ejercicio para cada una: piernas, brazos, pecho, hombros y espalda ({ $source }). Las semanas cortas tienen este límite. No es un error.
plan-regions = { $trained }; no { $missing }
plan-regions-all = las cinco
plan-regions-none = ninguna de las cinco
plan-region-legs = piernas
plan-region-arms = brazos
plan-region-chest = pecho
plan-region-shoulders = hombros
plan-region-back = espalda
plan-proposals = Propuestas
plan-proposals-week = Propuestas para la semana { $number }
plan-proposals-about = Son propuestas para que las juzgue un profesional de salud con licencia. De cada componente, los ejercicios que pueden venir después están en orden, el mejor primero, cada uno con su propia dosis. Ninguno sube más de un peldaño de su escalera, y cada uno tiene una respuesta para todas las personas a las que sirve este programa.
plan-proposals-unknown = No hay ninguna: no se pudo leer todo lo que vino antes.
plan-choice = Los ejercicios elegidos caben juntos: { $amount } minutos por sesión, como máximo { $most }.
plan-unfit-minutes = Ninguna combinación cabe: todas duran al menos { $least } minutos, y una sesión puede durar { $most }.
plan-unfit-landings = Ninguna combinación cabe: todas tienen al menos { $least } golpes por sesión, y el límite es { $most }.
plan-unfit-nothing = Ninguna combinación cabe: no hay nada que proponer para { $components }. Repita un ejercicio a propósito o añada uno.
plan-chosen = Elegido
plan-nothing-next = No hay nada que proponer.
plan-more =
    { $count ->
        [one] Y { $amount } más.
       *[other] Y { $amount } más.
    }
plan-not-proposed = Cuáles no están entre los mejores, y por qué
plan-next-rung = Un peldaño más que { $exercises }
plan-same-rung = El peldaño en el que está el programa; la última vez, en la semana { $week }
plan-new-movement = Nuevo, y nada tiene que venir antes
plan-lower-rung = Otra vez un peldaño más fácil; la última vez, en la semana { $week }
plan-needs-nothing = No necesita equipo
plan-at-hand = Ya a mano: { $things }
plan-new-equipment = Necesita algo nuevo: { $things }
plan-other-form = Otra forma para personas con { $precaution }: { $form }
plan-no-form = Sin forma segura para personas con { $precaution }
plan-not-unread = No se pudo leer su campo { $field }
plan-not-answered = Sin respuesta para personas con { $precaution }: { $demand }
plan-not-for-all = Tal como está no es para nadie aquí, donde todas las personas tienen { $precaution }
plan-not-rung = Ninguna semana anterior tiene { $exercises }, justo debajo
plan-not-impact = Pide esto: { $impact }. Ninguna semana anterior tiene esto: { $before }.
plan-not-recent = Estuvo en la semana { $last } y puede volver en la semana { $returns }
plan-not-same-dose = La semana { $week } lo tiene con la misma dosis
plan-not-landings = { $landings } golpes por sesión, más de { $most }
plan-not-work = { $minutes } minutos de trabajo por semana, después de { $before } como máximo en las semanas anteriores
plan-not-minutes = Dura { $minutes } minutos por sí solo


## Figuras, dos páginas para educadores

figures-title = Todas las figuras
figures-about = Todas las figuras de los ejercicios, cada una con las líneas que la dibujan. Mírelas una junto a otra: lo mismo debe verse igual en todas.
figures-gray = Mostrarlas en gris, como las imprime una impresora en negro
figures-lines = Las líneas que la dibujan
figures-none = Ningún ejercicio tiene figura todavía.
figures-without = Ejercicios sin figura

drawing-title = Cómo dibujar una figura
drawing-about = Usted escribe unas líneas en el archivo de un ejercicio, y el programa dibuja con ellas una figura. Cada dibujo de esta página sale de las mismas líneas que tiene debajo.
drawing-about-poses = Cada [[figure.pose]] es un momento: su posición de base y lo que cambia en ella. Dos o tres poses muestran el movimiento del principio al final. Los ángulos son grados desde la posición de pie con las palmas hacia delante (la posición anatómica). Las medidas son centímetros, para una persona de 160 cm.
drawing-about-description = Toda figura necesita una descripción para quien no la ve. Aquí solo la tiene la primera, para que las demás sean cortas.
drawing-about-look = Mire cada figura antes de darla a nadie. El programa sabe lo que un cuerpo puede hacer y sostener. Si es el ejercicio adecuado, solo lo sabe usted.
drawing-example = Una figura que muestra lo que dice su nombre, dibujada con las líneas que tiene al lado.
drawing-whole = Una figura completa
drawing-whole-about = Lo que muestra, las cosas que rodean a la persona y dos poses. La flecha sigue las caderas de la primera pose a la última.
drawing-bases = Posiciones de base
drawing-bases-about = Cada pose parte de una de estas siete. Una pose que no dice nada más queda como aquí.
drawing-views = Vistas y disposiciones
drawing-views-about = De lado, ella mira a la derecha y su lado derecho queda cerca. De frente, le mira a usted. Desde arriba también le mira a usted, a media altura. Boca arriba y boca abajo se dibuja de lado o desde arriba; acostada de lado, de frente o desde arriba; a gatas, solo de lado. «faces» da la vuelta a la vista de lado: ella mira a la izquierda y su lado izquierdo queda cerca. La espalda redondeada se da en grados.
drawing-hip = Caderas
drawing-hip-about = «hip» mueve las dos caderas; «left_hip» y «right_hip», una sola. Lo mismo vale para toda articulación con dos lados.
drawing-knee = Rodillas
drawing-knee-about = Grados desde la rodilla estirada.
drawing-ankle = Tobillos
drawing-ankle-about = De pie, el programa halla los tobillos por sí mismo, para que el peso quede sobre los pies.
drawing-shoulder = Hombros
drawing-shoulder-about = La rotación parte del antebrazo hacia delante, con el codo doblado.
drawing-elbow = Codos
drawing-elbow-about = Grados desde el codo estirado.
drawing-wrist = Muñecas
drawing-wrist-about = La flexión acerca la palma al antebrazo.
drawing-shoulder-blade = Omóplatos
drawing-shoulder-blade-about = Son movimientos pequeños: los brazos los acompañan.
drawing-spine = Columna
drawing-spine-about = Todo el tronco se reparte el ángulo. Piense en quien tiene poca densidad ósea antes de dibujar una flexión o un giro.
drawing-neck = Cuello
drawing-neck-about = La retracción mete el mentón; la protracción lo lleva hacia delante.
drawing-props = Cosas
drawing-props-about = Un nombre solo pone la cosa donde suele estar. Con «place», «distance» y «height» se pone en otro sitio. Una banda va de una parte del cuerpo a otra. Un cojín o una toalla enrollada está debajo de una parte («under») o entre dos («between»).
drawing-holds = Lo que sujetan las manos
drawing-holds-about = Los brazos llegan por sí mismos. «left_hold» y «right_hold» son para una mano; «hold_at» es la altura en una pared.
drawing-feet = Pies
drawing-feet-about = «feet» vale para los dos; «left_foot» y «right_foot», para uno. Una pierna levantada cuelga según los ángulos de su cadera y su rodilla.
drawing-stances = Apoyos y peso
drawing-stances-about = Cómo están los pies uno respecto al otro y cuál lleva el peso. «front_foot» dice cuál va delante y «stride» a qué distancia. «moved» dice qué pie se ha movido desde la pose anterior: el otro sigue donde estaba.
drawing-rests = Apoyar la espalda, levantar y saltar
drawing-rests-about = En qué se apoya la espalda, cuánto se levantan las caderas y cuánto se separan los dos pies del suelo, en centímetros.
drawing-marks = Flechas y números
drawing-marks-about = Una flecha muestra el camino, de pose a pose, de lo que más se mueve o de las partes que nombra «arrows»; una lista vacía no dibuja ninguna. «pace» es para la figura en movimiento: una caída o una pisada es rápida («quick»). Un número en el dibujo tiene sus palabras debajo.


## Página no encontrada

not-found-title = No encontramos esta página
not-found-text = Tal vez la página se movió, o la dirección tiene un error.
not-found-help = Pruebe una de estas:


## Listas de palabras

list-two = { $first } y { $last }
list-many = { $first } y { $last }
list-or-two = { $first } o { $last }
list-or-many = { $first } o { $last }
list-separator = { ", " }


## Fechas

date-long = { $weekday } { $day } de { $month } de { $year }
date-day = { $day } de { $month } de { $year }
month-1 = enero
month-2 = febrero
month-3 = marzo
month-4 = abril
month-5 = mayo
month-6 = junio
month-7 = julio
month-8 = agosto
month-9 = septiembre
month-10 = octubre
month-11 = noviembre
month-12 = diciembre
weekday-1 = lunes
weekday-2 = martes
weekday-3 = miércoles
weekday-4 = jueves
weekday-5 = viernes
weekday-6 = sábado
weekday-7 = domingo
weekday-short-1 = lun
weekday-short-2 = mar
weekday-short-3 = mié
weekday-short-4 = jue
weekday-short-5 = vie
weekday-short-6 = sáb
weekday-short-7 = dom


## Tables in prose

table-label = tabla { $number }


## Printed sheets

card-stop = Pare si siente dolor, se marea o le falta el aire.
card-emergency = Dolor en el pecho o un desmayo:
card-page = página { "{page}" }
card-more = ¿Una enfermedad, dolor o una lesión? Lea antes la página { "{page}" }.
card-more-title = ¿Tiene algo de esto?
card-more-lead = Entonces pídanos una hoja hecha para usted antes de empezar. Dice qué es seguro para usted.
care-who = { $count ->
    [one] Este ejercicio no es para usted, o no tal como se muestra,
   *[other] Algunos de estos ejercicios no son para usted, o no tal como se muestran,
  } si tiene { $who }.
start-title = Empiece aquí
start-card = página { "{page}" }
start-emergency = Emergencia:
start-questions = Preguntas:
start-welcome = Bienvenida
sheet-exercises-title = Sus ejercicios
sheet-page = Página { $number } de { $count }
sheet-needs-title = Lo que necesita esta semana
sheet-personal-title = { $title }: hoja personal
sheet-for = Para { $name }
sheet-days = Sus días: { $days }.
sheet-your-way = Su manera de hacer el ejercicio { $number } de esta semana
sheet-your-own-way = Su manera de hacer este ejercicio
sheet-how = Cómo hacerlo
your-change = Lo que usted cambia
sheet-online-title = En una pantalla
sheet-online-week = Apunte la cámara de un teléfono a este cuadro, o escriba la dirección, para ver esta semana con su video.
sheet-online-exercise = Apunte la cámara de un teléfono a este cuadro, o escriba la dirección, para ver este ejercicio.
sheet-code = Código cuadrado para teléfonos. Lleva a { $address }
sheet-about-title = Acerca de esta hoja
sheet-prepared = Preparada por { $name }
sheet-made = Hecha el { $date }
sheet-contact-title = ¿Preguntas?
sheet-contact = Póngase en contacto antes de seguir.
sheet-note = Nota { $number }
log-title = Su registro de práctica
log-how = Marque una casilla cuando haya hecho el ejercicio.
log-how-spread = Marque lo que haga. Las casillas gruesas son un buen plan.
log-exercise = Ejercicio
log-choose =
    { $count ->
        [one] Elija { $amount } día
       *[other] Elija { $amount } días
    }
log-cell = { $day }, { $exercise }: márquelo
log-cell-planned = { $day }, { $exercise }: márquelo. Es un buen día para hacerlo.
log-cell-rest = { $day }, { $exercise }: descanso
log-rest = Libre
log-effort = Esfuerzo, de 0 a 10
log-effort-of = { $day }: cuánto le costó, de 0 a 10. Escriba un número
log-name = Nombre
log-begun = Primer día
log-felt = Cómo se sintió


## Cue sheet

cue-title = Hoja de apuntes
cue-at = Desde
cue-aloud = Diga en voz alta
cue-ask-first = Si tiene una enfermedad, una lesión antigua, dolor o una prótesis, consulte a su profesional de salud antes de hacerlos. Su hoja dice más.
cue-barred = { $who }: { $level }
cue-props = Tenga a mano
cue-faults = Esté atenta a
cue-easier = Más fácil
cue-harder = Más difícil
cue-question = La pregunta
cue-next = La próxima semana


## Páginas que muestran primero los dibujos, y la semana del día de quien lee

nav-more = Más
size-title = Tamaño de las letras
size-1 = Letras normales
size-2 = Letras grandes
size-3 = Letras muy grandes
read-aloud = Leer en voz alta
read-aloud-stop = Dejar de leer
now-last-week = La última semana
now-ended = Terminó el { $date }
now-all-weeks = Todas las semanas siguen aquí. Puede repetir la que quiera.
now-dose = Esta semana: { $dose }
week-list-back = Volver a la lista
go-back = Atrás
go-next = Siguiente
exercise-fold = Más fácil, más difícil y más
exercise-fold-more = Más sobre este ejercicio
cautions-more =
    { $count ->
        [one] ¿Enfermedad, dolor o lesión antigua? Lea esto antes.
       *[other] ¿Enfermedad, dolor o lesión antigua? Lea antes estos { $amount }.
    }
week-words-title = Sobre esta semana
paper-print = Imprimir
paper-others = Tamaños y papel
week-video = Ver el video
transcript-link = Leer lo que se dice en el video
transcript-of = Lo que se dice en el video de { $week }
digest-more-cautions = Hay más consejos para personas con una u otra enfermedad. Léalos en la página de esta semana:
library-find = Buscar
library-more-choices = Más opciones


## Lo que es cierto para quien lee, y la forma del ejercicio que es suya. {who}, {demand}, {title}, {things} y {n} se
## rellenan en su aparato.

yours-title = Lo que es cierto para usted
yours-lead = Diga una vez lo que es cierto para usted. Después cada ejercicio muestra primero la forma que es para usted.
yours-scripts = Para guardar sus respuestas, esta página necesita un navegador que pueda ejecutar scripts. Sin él, cada ejercicio muestra todas sus formas, y para quién no es cada una.
yours-refused = Este navegador no guarda nada de estas páginas, así que no se pudieron guardar sus respuestas. Pida a alguien que le ayude a permitirlo, o pida una hoja impresa para usted.
yours-part = Parte { "{n}" } de { "{count}" }:
yours-check = Marque todo lo que es cierto para usted. ¿No está segura de algo? Márquelo: se muestra la forma más segura. Si no hay nada, siga.
yours-all-have = Estos ejercicios son para personas con { $who }, así que no hace falta marcarlo.
yours-group-bones = Sus huesos y su espalda
yours-group-joints = Sus articulaciones
yours-group-balance = Su equilibrio, su sensibilidad y su memoria
yours-group-heart = Su corazón, sus ojos, operaciones
yours-group-more = Y también
yours-group-things = Lo que tiene en casa
yours-things-any = Mostrar los ejercicios sin mirar qué necesitan
yours-things-own = Mostrar formas que solo necesitan lo que marco aquí:
yours-back = Atrás
yours-next = Siguiente
yours-done = Listo
yours-know-title = Conviene saber
yours-kept = Sus respuestas se guardan en este navegador, solo en este aparato. No se envían a nadie. Quien use este aparato puede verlas.
yours-no-clinician = Esto no reemplaza a su profesional de salud. Estas páginas solo saben lo que usted marca aquí. Si no está segura, pregunte antes de hacer ejercicio.
yours-ask-whom = ¿Preguntas? Hable con su profesional de salud, o con
yours-said-title = Lo que ha marcado
yours-said-nothing = Nada de la lista es cierto para usted.
yours-said-things = En casa tiene:
yours-said-no-things = En casa no tiene ninguna de las cosas de la lista.
yours-old = Algo que marcó antes ya no está en la lista. Hasta que la mire otra vez, ningún ejercicio se muestra como suyo.
yours-see = Ver los ejercicios
yours-change = Cambiar
yours-clear = Borrar
yours-cleared = Sus respuestas están borradas.
yours-undo = Recuperarlas
yours-told = Guardado. Cada ejercicio muestra ahora primero la forma que es para usted.
yours-told-back = Sus respuestas están otra vez.
yours-chip-none = Para usted: nada marcado
yours-chip-one = Para usted: 1 cosa
yours-chip-many = Para usted: { "{n}" } cosas
yours-invite = Ver lo que es para usted
yours-invite-list = Ver lo que le conviene
yours-filter = Solo lo que me conviene
yours-form = Para usted: { $title }
yours-fine = Nada de lo que marcó está en contra de este ejercicio como se muestra aquí.
yours-none = No encontramos ninguna forma que sea para usted. Pregunte a su profesional de salud.
yours-not = No es para usted: { $title }
yours-ask-before = Pregunte antes de hacerlo: { $title }
yours-show = Mostrarlo de todos modos
yours-hide = Ocultarlo otra vez
yours-card-fine = Para usted, como se muestra
yours-card-form = Para usted: { $title }
yours-card-not = No es para usted.
yours-unsure = No pudimos comprobar que sea seguro para usted.
yours-stop = Su aviso de seguridad dice que no lo haga si tiene { $precaution }.
yours-avoid = Incluye { $demand }. No es para usted si tiene { $precaution }.
yours-other-way = Hay que hacerlo de otra forma si tiene { $precaution }.
yours-ask-first = Pregunte a su profesional de salud antes de hacerlo, porque tiene { $precaution }.
yours-ask = Incluye { $demand }. Si tiene { $precaution }, pregunte a su profesional de salud antes de hacerlo.
yours-modify = Incluye { $demand }. Si tiene { $precaution }, pida a su profesional de salud una forma más segura.
yours-lacks = Necesita algo que usted no tiene: { $things }.
# Lo que una variante no pide al cuerpo.
yours-avoids = No incluye { $what }.
## Practice now: a page that counts an exercise out. $time is "60 seconds".

now-title = Practicar ahora
now-head-title = Practicar ahora: { $title }
now-about = { $title }, contado en voz alta, un ejercicio a la vez.
now-back-to-week = Volver a { $week }
now-back-to-exercise = Volver a { $title }
now-link = Practicar ahora
now-emergency = ¿Emergencia?
now-start = Empezar
now-start-about = Empieza solo cuando usted lo pulsa. Entre dos ejercicios la espera.
now-list-title = Lo que va a hacer
now-plain-title = Cada parte, con sus segundos
now-plain-about = Aquí puede leer las partes y contar por su cuenta.
now-part-list = Las partes
now-other-ways = Otras maneras de hacerlo
now-whole-page = Todo sobre { $title }
now-fewest = La voz cuenta { $few }. Cuando le resulte fácil, puede hacer { $many }.
now-steps-own = Cómo se hace
now-part-ready = Prepárese: { $time }
now-part-reps =
    { $count ->
        [one] { $amount } vez: { $time }
       *[other] { $amount } veces: { $time } cada una
    }
now-part-holds =
    { $count ->
        [one] Mantenga: { $time }
       *[other] { $amount } veces: mantenga { $time } cada vez
    }
now-part-held =
    { $count ->
        [one] { $amount } vez: { $time }, manteniendo { $hold }
       *[other] { $amount } veces: { $time } cada una, manteniendo { $hold }
    }
now-part-hold = Mantenga: { $time }
now-part-alternating = { $part }, cambiando de lado cada vez
now-part-between = { $part }. Descanse { $time } entre una y otra
now-part-time = Siga: { $time }
now-part-change = Cambie de lado: { $time }
now-part-rest = Descanse: { $time }
now-stop = Parar
now-stopped-title = Pare. Siéntese o acuéstese.
now-stopped-lead = ¿Siente que algo va mal? Entonces no siga hoy.
now-signs-here = Las señales para parar, en esta página
now-go-on = Estoy bien. Seguir.
now-end-here = Es todo por hoy
now-controls = El conteo
now-settings = Sonido y velocidad
now-pause = Pausa
now-back = Atrás
now-skip = Saltar
now-easier = Más fácil
now-slower = Más lento
now-faster = Más rápido
now-sound = Sonido
now-voice = Voz
now-easier-title = Hágalo más fácil
now-easier-keep = Seguir como antes
now-count-most = Contar lo máximo
now-next-button = Siguiente
now-again = Hacer este otra vez
now-finish = Terminar
now-done-title = Listo por hoy
now-done-lead = Siéntese y descanse todo lo que quiera.
now-done-list = Lo que hizo
now-effort = ¿Cuánto le costó?
now-effort-none = Prefiero no decirlo
now-felt = ¿Cómo se sintió?
now-felt-help = Con sus propias palabras. Puede dejarlo vacío.
now-trouble = ¿Se cayó, o algo le dolió?
now-trouble-none = No
now-trouble-fall = Me caí
now-trouble-pain = Algo me dolió
now-trouble-other = Otra cosa iba mal
now-trouble-call = Llame ahora si algo de esto le pasa
now-trouble-clinic = Si no, llame hoy a su profesional de salud, y no practique otra vez hasta que hayan hablado.
now-keep = Anotarlo
now-keep-about = Se queda en este aparato. Nadie más lo ve.
now-keep-not = Esta página no guarda nada. Anótelo en el registro de su hoja.

## Practice now: what the script says. What stands in braces is filled in by it.

now-js-ready = { "{title}. {part}." }
now-js-do-ready = Prepárese
now-js-do-go = Muévase
now-js-do-hold = Mantenga
now-js-do-back = Y vuelva
now-js-do-rest = Descanse
now-js-do-change = Cambie de lado
now-js-do-time = Siga
now-js-seconds = segundos
now-js-of-reps = { "de {n}" }
now-js-set = { "Serie {n} de {m}" }
now-js-side-one = Primer lado
now-js-side-other = El otro lado
now-js-next = { "Después: {what}" }
now-js-next-set = { "Después: serie {n} de {m}." }
now-js-next-end = Después: el final de este ejercicio
now-js-hold = Mantenga
now-js-hold-number = { "{n}. Mantenga." }
now-js-back = Y vuelva
now-js-done = Listo. Pulse Siguiente cuando quiera.
now-js-done-last = Listo por hoy. Muy bien.
now-js-exercise = { "Ejercicio {n} de {m}" }
now-js-exercise-alone = Su ejercicio
now-js-finished = { "{title}: hecho" }
now-js-then = { "Después: {title}. Descanse todo lo que necesite." }
now-js-last = Este era el último.
now-js-pause = Pausa
now-js-go-on = Seguir
now-js-paused = En pausa
now-js-am-ready = Ya puedo
now-js-skip = Saltar
now-js-speed-1 = Velocidad: mucho más lenta
now-js-speed-2 = Velocidad: más lenta
now-js-speed-3 = Velocidad: la prevista
now-js-speed-4 = Velocidad: un poco más rápida
now-js-no-voice = Este aparato no tiene voz en este idioma. Cuenta con tonos.
now-js-no-sound = Este aparato no suena aquí. Mire el número.
now-js-no-lock = La pantalla puede apagarse sola. Tóquela de vez en cuando.
now-js-hidden = En pausa, porque dejó la página.
now-js-count-most = Contar lo máximo
now-js-count-fewest = Contar lo mínimo
now-js-for-you = { "Para usted: {title}" }
now-js-not-for-you = No es para usted tal como está. Pregunte a su profesional de salud.
now-js-other-dose = Su precaución cambia cuánto hace usted. Hágalo como dice su propia página.
now-js-none-for-you = Ninguno de estos ejercicios es para usted tal como está. Pregunte a su profesional de salud.
now-js-instead = { "Haga este: {title}" }
now-js-sets-one = { "{n} serie" }
now-js-sets-many = { "{n} series" }
now-js-not-done = no hecho hasta el final
now-js-kept = Queda anotado en este aparato.
now-js-not-kept = Este aparato no pudo guardarlo. Anótelo en el registro de su hoja.
now-js-nothing = No hay nada que anotar. Marque lo que hizo.

## Lo que dicen los números del esfuerzo, donde se anota cuánto costó

effort-0 = ningún esfuerzo
effort-1 = casi ninguno
effort-2 = muy fácil
effort-3 = fácil
effort-4 = bastante fácil
effort-5 = algo de esfuerzo
effort-6 = un buen esfuerzo
effort-7 = difícil
effort-8 = muy difícil
effort-9 = casi todo lo que podía
effort-10 = todo lo que podía

## Mis días: lo que ha hecho una clienta, guardado en su propio dispositivo.
## Las palabras que empiezan con days-say las dice el programa de la página, que pone valores en lugar de { "{n}" } y otros así.

nav-days = Mis días
days-title = Mis días
days-lead = Marque lo que ha hecho. Se queda en este dispositivo. Nadie más lo ve si usted no lo envía.
days-whom = ¿Una caída o un dolor nuevo? Vea a quién llamar
days-call-educator = También puede llamar a
days-nobody-told = Esta página no avisa a nadie. Por favor, llame usted.
days-not-again = No vuelva a practicar antes de hablar con su profesional de salud.
days-no-scripts = Esta página no puede guardar sus días, porque en este navegador los programas de las páginas están apagados.
days-no-scripts-paper = Esta es la otra manera. Imprima esta página y marque las casillas con un lápiz.
days-series = Cuál serie
days-earlier = Semana anterior
days-later = Semana siguiente
days-now = Ir a hoy
days-to-come = Todavía no llega
days-another = Otro ejercicio
days-another-none = Elija uno para marcarlo
days-not-said = Sin escribir
days-sets = Cuántas series
days-effort = Cuánto le costó
days-form = De qué manera lo hizo
days-form-shown = Como se muestra primero
days-felt = Cómo se sintió
days-trouble = ¿Algo salió mal?
days-trouble-none = No
days-trouble-fall = Me caí
days-trouble-pain = Tuve dolor
days-trouble-other = Otra cosa
days-take-off = Quite esta vez
days-chart-title = Semana a semana
days-chart-about = Cada ejercicio cuenta una vez por cada día en que lo hizo. El recuadro es tan largo como lo que pide la semana. La parte llena es lo que usted hizo.
days-chart-none = Todavía no hay nada marcado.
days-keep-title = Guarde una copia
days-keep-about = Sus días están en este dispositivo, en este navegador, y en ningún otro lugar. Una ventana privada los olvida cuando usted la cierra. Guárdelos de vez en cuando en un archivo. Con el archivo puede llevarlos a un teléfono nuevo.
days-empty = Todavía no hay nada guardado en este dispositivo. ¿Tenía días aquí antes? Entonces el navegador los ha borrado, o usted está en otro navegador. Tráigalos de un archivo, abajo.
days-save = Guarde mis días en un archivo
days-bring = Traiga días de un archivo
days-bring-about = Los días del archivo se agregan. Lo que ya está aquí se queda.
days-print = Imprima mis días
days-send-title = Envíe sus días
days-send-to = Van a
days-send-about = Su propio programa de correo se abre con el texto. Nada se envía antes de que usted pulse Enviar allí. El correo no es secreto: quite lo que sea privado.
days-send-much = Qué enviar
days-send-week = La semana de arriba
days-send-all = Todo
days-send-text = El texto
days-send-mail = Abra mi programa de correo
days-send-copy = Copie el texto
days-erase-title = Borre todo
days-erase-about = Todos sus días se borran de este dispositivo. Un archivo que haya guardado se queda.
days-erase = Borre todos mis días
days-ask-no = No, que se queden

days-say-today = hoy
days-say-done-none = Nada todavía
days-say-done-one = 1 hecho
days-say-done-many = { "{n}" } hechos
days-say-span = { "{from}" } a { "{to}" }
days-say-before = Antes de la primera semana
days-say-after = Después de la última semana
days-say-starts = La primera semana empieza el { "{day}" }. Entonces podrá marcarla.
days-say-no-series = Todavía no hay ninguna serie. Lo que haga con “Practicar ahora” se guarda aquí de todos modos.
days-say-went = Cómo le fue
days-say-practice = Con “Practicar ahora”
days-say-sets-one = 1 serie
days-say-sets-many = { "{n}" } series
days-say-effort = esfuerzo { "{n}" } ({ "{word}" })
days-say-felt = sus palabras
days-say-fall = una caída
days-say-pain = dolor
days-say-other = algo salió mal
days-say-open = Muestre { "{week}" }
days-say-of = { "{n}" } de { "{asked}" }
days-say-range = { "{low}" } a { "{high}" }
days-say-extra = y { "{n}" } más
days-say-ask-off = ¿Quitar { "{title}" } de este día? Lo que escribió sobre eso se va también.
days-say-yes-off = Sí, quítelo
days-say-ask-erase-one = ¿Borrar la única cosa que ha marcado? No se puede deshacer.
days-say-ask-erase-many = ¿Borrar las { "{n}" } cosas que ha marcado? No se puede deshacer.
days-say-ask-erase-none = No hay nada que borrar.
days-say-yes-erase = Sí, bórrelo todo
days-say-erased = Todo está borrado.
days-say-erased-elsewhere = Todo se borró en otra ventana.
days-say-saved-one = 1 anotación está guardada en el archivo { "{file}" }. Búsquelo donde su dispositivo pone las descargas.
days-say-saved-many = { "{n}" } anotaciones están guardadas en el archivo { "{file}" }. Búsquelo donde su dispositivo pone las descargas.
days-say-save-none = Todavía no hay nada que guardar.
days-say-brought = Del archivo: { "{added}" } nuevas, { "{same}" } que ya estaban aquí.
days-say-brought-renewed = { "{n}" } eran más nuevas en el archivo, y ahora están como allí.
days-say-brought-kept = { "{n}" } son distintas en el archivo. Aquí se quedan como están.
days-say-refused-other = Este archivo no es de sus días. Elija un archivo que esta página haya guardado. Nada cambió.
days-say-refused-damaged = Este archivo está dañado. No se tomó nada de él, y aquí nada cambió. ¿Hay otra copia?
days-say-refused-newer = Este archivo es de una versión más nueva de estas páginas. Conéctese, abra otra vez esta página y tráigalo después. Nada cambió.
days-say-refused-large = Este archivo es demasiado grande para ser de sus días. Nada cambió.
days-say-copied = El texto está copiado.
days-say-not-copied = No se pudo copiar el texto. Manténgalo pulsado para copiarlo usted.
days-say-long-mail = Esto es demasiado largo para pasarlo a un programa de correo. Pulse “Copie el texto”, abra el programa de correo y péguelo allí.
days-say-long-body = (Pegue aquí el texto.)
days-say-subject = Mis días: { "{what}" }
days-say-all = todo
days-say-nothing = Nada marcado.
days-say-missing = Este navegador no guarda nada para esta página. Una ventana privada hace eso. Puede seguir, pero todo se pierde cuando cierre la página. Guárdelo antes en un archivo.
days-say-broken = Este navegador no puede leer ni guardar sus días ahora. Puede seguir, pero lo que escriba se pierde cuando cierre la página. Guárdelo antes en un archivo.
days-say-full = En este dispositivo no queda espacio. Lo último que escribió está solo en esta página, y se pierde cuando la cierre. Guárdelo en un archivo, o haga espacio y pulse “Intente otra vez”.
days-say-newer = Una versión más nueva de estas páginas ha guardado sus días. No se ha perdido nada. Cierre todas las ventanas de este sitio, conéctese y abra otra vez esta página.
days-say-blocked = Otra ventana de este sitio estorba. Ciérrela y pulse “Intente otra vez”.
days-say-again = Intente otra vez
days-say-kept-again = Ahora todo está guardado en este dispositivo.
days-say-cleared-one = Su navegador ha borrado lo que estaba guardado aquí. Había 1 anotación. Si guardó un archivo, tráigalo abajo.
days-say-cleared-many = Su navegador ha borrado lo que estaba guardado aquí. Había { "{n}" } anotaciones. Si guardó un archivo, tráigalo abajo.
days-say-cleared-here = Las anotaciones están todavía en esta página. ¿Guardarlas otra vez?
days-say-put-back = Guárdelas otra vez
days-say-known = Lo sé, empezar de nuevo
days-say-ahead-one = 1 anotación tiene un día que todavía no llega: { "{day}" }. No se ha perdido nada. ¿Está bien la fecha de este dispositivo? Dice { "{today}" }.
days-say-ahead-many = { "{n}" } anotaciones tienen un día que todavía no llega. El primero es { "{day}" }. No se ha perdido nada. ¿Está bien la fecha de este dispositivo? Dice { "{today}" }.
days-say-show = Muéstrelo
days-say-gone = Esto se quitó en otra ventana. Aquí está otra vez, con lo que usted cambió.
days-say-col-day = Día
days-say-col-exercise = Ejercicio
days-say-col-went = Cómo le fue

## La página de una sola persona: un archivo, para un teléfono o una computadora, que no necesita otro.

own-about = Esta página es un solo archivo. Funciona sin internet y no envía nada por sí sola. Quien tenga el archivo puede leerlo.
own-needs = Lo que necesita
own-list-title = Qué hace, y en qué días
own-days = Sus días
own-today = Haga este ahora
now-not-today = Hoy no toca según una manera de repartir la semana: { $days }. Descansar es parte del plan.
own-not-today = Hoy no está en su plan. Sus días: { $days }. El descanso es parte del plan.
own-none = En esta página no hay nada que practicar. Pregunte a su profesional de salud.
own-none-today = Arriba no hay nada marcado. Si hoy no tiene ningún ejercicio en su plan, descanse. El descanso es parte del plan.
own-leave = Volver a mi página
