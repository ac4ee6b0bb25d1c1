# The words of the interface in English, for pages and handouts.
# One message a line of thought: an id that templates and code ask for, and what a reader of eighty reads.
# Arguments: $low, $high, $count are numbers or texts made of numbers; $count decides between one and many.


## Training components

component-posture = Posture
component-balance = Balance
component-strength = Strength
component-power = Power
component-posture-about = Stand tall and keep your back strong.
component-balance-about = Stay steady on your feet.
component-strength-about = Make your legs, hips and arms stronger.
component-power-about = Move with a little speed and land lightly.


## Positions

position-lying = Lying on your back
position-side-lying = Lying on your side
position-prone = Lying face down
position-kneeling = Kneeling
position-hands-and-knees = On hands and knees
position-seated = Sitting
position-standing = Standing
surface-floor = on the floor
surface-bed = on a firm bed
position-on = { $position }, { $surface }


## What the hands hold

support-counter = a kitchen counter
support-wall = a wall
support-chair = a sturdy chair
support-doorway = a doorway
support-rail = a rail
support-partner = a person beside you
support-none = nothing to hold


## What a movement asks of the body

demand-floor-transfer = getting down to the floor and up again
demand-lying-flat = lying flat on your back
demand-lying-prone = lying face down
demand-kneeling = kneeling
demand-end-range-flexion = bending the back far forward
demand-loaded-flexion = bending the back forward with a weight
demand-end-range-twist = twisting the back as far as it goes
demand-end-range-extension = bending backward as far as it goes
demand-overhead-reach = reaching above the head
demand-overhead-load = lifting a weight above the head
demand-wrist-load = leaning on the hands
demand-grip = holding something tightly in the hand
demand-deep-knee-bend = a deep bend of the knees
demand-deep-hip-bend = a deep bend of the hips
demand-crossing-midline = crossing the legs
demand-hip-extension = moving a leg back behind the body
demand-hip-turn-in = turning a leg inward from the hip
demand-single-leg-stance = standing on one leg
demand-narrow-stance = standing with the feet close together or in line
demand-tiptoe = standing on the toes
demand-step-back = stepping backward
demand-step-down = stepping down from a step
demand-hands-full = standing with both hands full
demand-eyes-closed = closing the eyes
demand-head-turn = turning the head
demand-look-up = tipping the head back to look up
demand-quick-head-move = moving the head quickly
demand-head-below-heart = lowering the head below the heart
demand-quick-rise = standing up quickly
demand-lie-to-sit = sitting up from lying down
demand-long-hold = holding still for a long time
demand-breath-strain = straining or holding the breath
demand-heavy-load = lifting a heavy weight
demand-dual-task = doing two things at once
demand-impact-low = a light landing, as in a heel drop
demand-impact-moderate = a firmer landing, as in a hard stamp or a small hop
demand-impact-high = a hard landing, as in a jump


## Precautions. Each reads well after "If you have".

precaution-low-bone-density = weak bones (low bone density)
precaution-spine-fracture = a break in the spine
precaution-other-fracture = a bone that once broke in a small fall
precaution-rounded-upper-back = a rounded upper back
precaution-high-blood-pressure = high blood pressure
precaution-heart-or-lung = a heart or lung illness
precaution-hernia-or-aneurysm = a hernia, an aneurysm (a bulge in a large blood vessel) or a tight heart valve
precaution-dizzy-on-standing = dizziness when you stand up
precaution-unsteady = unsteady balance
precaution-no-floor = trouble getting down to the floor or up again
precaution-hip-replacement = a hip replacement
precaution-knee-replacement = a knee replacement
precaution-knee-arthritis = worn or sore knees (arthritis)
precaution-hip-arthritis = worn or sore hips (arthritis)
precaution-wrist-fracture = a broken or sore wrist
precaution-shoulder-pain = shoulder pain
precaution-pelvic-floor-symptoms = leaking or a heavy feeling low in the pelvis
precaution-dizziness = dizzy spells
precaution-glaucoma = glaucoma (high pressure in the eye)
precaution-eye-surgery = a recent eye operation or bleeding in an eye
precaution-recent-surgery = a recent operation or a break that is still healing
precaution-spinal-stenosis = a narrow spine canal (spinal stenosis)
precaution-foot-numbness = numb feet
precaution-parkinsons = Parkinson’s disease
precaution-stroke = the effects of a stroke
precaution-memory = trouble with memory
precaution-bone-cancer = cancer in a bone


## Cautions: how strictly each is to be taken, and whom it is for

level-stop = Do not do this one.
level-adapt = Do it this way.
level-ask = Ask your clinician first.
card-ask = Ask your clinician first. You may need another way: ask us for a handout of your own.
caution-everyone = For everyone
caution-for = If you have { $who }


## Sections of an exercise. An entry's headings carry these names.

section-set-up = Set up
section-move = Move
section-finish = Finish
section-feel = Feel
section-watch-for = Watch for


## Labels of an exercise

make-it-easier = Make it easier
make-it-harder = Make it harder
another-safe-way = Another safe way
take-care = Take care
how-much-how-often = How much, how often
what-you-need = What you need
need-nothing = No equipment
position-label = Position
hold-on-to = Hold on to
focus-label = This week
also-called = Also called: { $names }
exercise-of = Exercise { $number } of { $count }
try-exercise = Try this one: { $title }
harder-only-when-ready = Only when this one feels easy and steady.
harder-not-for = Not for you if you have { $who }.
easier-first = Start here if you are not sure.
ways-none = Your clinician can show you one.
figure-of = Picture: { $title }
reviewed-line = Checked by { $name } on { $date }.
reviewed-not-yet = Not yet checked by a clinician.
approval-changed = Changed since it was checked.
evidence-label = What this is based on


## Dose: numbers

dose-range = { $low } to { $high }
dose-seconds =
    { $count ->
        [one] { $amount } second
       *[other] { $amount } seconds
    }
dose-minutes =
    { $count ->
        [one] { $amount } minute
       *[other] { $amount } minutes
    }
dose-minutes-and-seconds = { $minutes } { $seconds }

## Dose: the words beside the large numbers. $count is the higher number.

dose-unit-reps =
    { $count ->
        [one] time
       *[other] times
    }
dose-unit-reps-each =
    { $count ->
        [one] time on each side
       *[other] times on each side
    }
dose-unit-reps-alternating =
    { $count ->
        [one] time, changing sides
       *[other] times in all, changing sides
    }
dose-unit-reps-alternating-sets =
    { $count ->
        [one] time in each set, changing sides
       *[other] times in each set, changing sides
    }
dose-unit-sets =
    { $count ->
        [one] set
       *[other] sets
    }
dose-unit-days =
    { $count ->
        [one] day a week
       *[other] days a week
    }
dose-unit-hold-seconds =
    { $count ->
        [one] second, each hold
       *[other] seconds, each hold
    }
dose-unit-hold-minutes =
    { $count ->
        [one] minute, each hold
       *[other] minutes, each hold
    }
dose-unit-seconds =
    { $count ->
        [one] second
       *[other] seconds
    }
dose-unit-minutes =
    { $count ->
        [one] minute
       *[other] minutes
    }
dose-unit-time = { $unit } { $extent }
dose-extent = in all
dose-extent-each = on each side
dose-extent-alternating = in all, changing sides
dose-extent-sets = in each set
dose-extent-sets-each = on each side, in each set
dose-extent-sets-alternating = in each set, changing sides

## Dose: the phrases of one line, as in "10 times, 2 sets, 3 to 4 days a week"

dose-reps =
    { $count ->
        [one] { $amount } time
       *[other] { $amount } times
    }
dose-reps-each =
    { $count ->
        [one] { $amount } time on each side
       *[other] { $amount } times on each side
    }
dose-reps-alternating =
    { $count ->
        [one] { $amount } time, changing sides
       *[other] { $amount } times in all, changing sides
    }
dose-reps-alternating-sets =
    { $count ->
        [one] { $amount } time in each set, changing sides
       *[other] { $amount } times in each set, changing sides
    }
dose-sets =
    { $count ->
        [one] { $amount } set
       *[other] { $amount } sets
    }
dose-days =
    { $count ->
        [one] { $amount } day a week
       *[other] { $amount } days a week
    }
dose-days-every = every day
dose-hold = hold { $time }
dose-hold-each = hold { $time } on each side
dose-hold-alternating = hold { $time }, changing sides
dose-hold-each-time = hold { $time } each time
dose-time = { $time } in all
dose-time-each = { $time } on each side
dose-time-alternating = { $time } in all, changing sides
dose-sets-of =
    { $count ->
        [one] { $amount } set of { $time }
       *[other] { $amount } sets of { $time }
    }
dose-sets-of-each =
    { $count ->
        [one] { $amount } set of { $time } on each side
       *[other] { $amount } sets of { $time } on each side
    }
dose-sets-of-alternating =
    { $count ->
        [one] { $amount } set of { $time }, changing sides
       *[other] { $amount } sets of { $time }, changing sides
    }
dose-within = in { $time }
dose-within-each = in { $time } for each side
dose-separator = { ", " }

## Dose: the small lines below the large numbers

dose-label-time = Time
dose-label-sides = Sides
dose-label-hold = Hold
dose-label-rest = Rest
dose-label-pace = Speed
dose-label-days = How often
dose-label-rest-days = Days off
dose-label-effort = Effort
dose-sides-both-together = Both sides together
dose-sides-each = One side, then the other
dose-sides-alternating = Change sides each time
dose-rest-between-sets = { $time } between sets
dose-rest-between-reps = { $time } in between
dose-pace = { $time } each time
dose-rest-days =
    { $count ->
        [one] { $amount } day of rest in between
       *[other] { $amount } days of rest in between
    }
dose-effort = { $amount } out of 10
dose-effort-scale = 0 is rest. 10 is as hard as you can.
dose-changed-this-week = Changed for this week.


## Minutes and the practice week. $minutes is "4 minutes" or "20 to 30 minutes", $days is "3 days a week".

minutes-about = About { $minutes }
practice-a-day = About { $minutes } a day, { $days }.
practice-every-day = About { $minutes } every day.
practice-together = About { $minutes } for all the exercises together.
practice-title = One way to spread your practice
practice-title-own = Your week
practice-day = Day
practice-what = What you do
practice-rest-day = Rest day
practice-other-days = Other days are fine too.
practice-same-muscles = { $exercises } work some of the same muscles. Do them on the same day, or rest at least 1 day in between.
practice-rest =
    { $count ->
        [one] { $exercises }: rest at least { $amount } day before you do the same one again.
       *[other] { $exercises }: rest at least { $amount } days before you do the same one again.
    }


## Safety: signs to stop and get help

safety-title = Your safety
safety-signs-title = Signs to stop and get help
safety-before-title = Before you start
safety-stop-now = Stop at once if something feels wrong. Do not wait.
# Above or beside it stands "Call 911."
safety-short = Stop at once if you have pain, or feel dizzy or breathless. Pain or pressure in your chest, fainting, a drooping face or a knock to the head is an emergency.
safety-all-signs = See all the signs to stop
safety-page-lead = Read this page before your first exercise. Keep it where you can find it.

safety-emergency-title = Stop and get emergency help
safety-emergency-call = Call { $number }.
safety-emergency-call-any = Call your emergency number.
safety-emergency-chest = Chest pain or pressure
safety-emergency-stroke = A drooping face, a weak arm or slurred words
safety-emergency-head = You fall and hit your head, even if you feel well. Call at once, above all if you take blood thinners.
safety-emergency-fall = You fall and have bad pain, or cannot stand or walk
safety-emergency-faint = You faint
safety-emergency-arm = New neck, shoulder or arm pain that rest does not ease
safety-emergency-legs = New weakness or numbness in your legs, or numbness between your legs
safety-emergency-bladder = You suddenly lose control of your bladder or bowels, or suddenly cannot pass urine
safety-emergency-rest = Short breath, a fluttering heart or a cold sweat that rest does not ease

safety-stop-title = Stop, sit or lie down, and call your clinician
safety-stop-back = Sudden new back pain, or back pain that gets worse. It may be a break in the spine.
safety-stop-dizzy = You feel dizzy, light-headed, faint or sick
safety-stop-breath = You are too short of breath to speak
safety-stop-heart = Your heart races, skips or flutters until you rest
safety-stop-sweat = A cold sweat that passes as you rest
safety-stop-sharp = A cramp, or sharp pain in a joint, foot or leg
safety-stop-fall = A fall, even a small one

safety-tell-title = Tell your clinician at your next call or visit
safety-tell-height = You are over 3 cm (about 1 inch) shorter
safety-tell-stoop = Your back is becoming more rounded
safety-tell-sore = You are still sore after 3 days. Do less.
safety-tell-new = A new illness, medicine or operation

## Safety: general advice

safety-ask-title = Ask first
safety-ask-lead = Talk with your doctor or physical therapist before you start if any of these fits you:
safety-ask-new = Weak bones, and you are new to exercise
safety-ask-spine = A break in the spine. See a physical therapist.
safety-ask-fracture = A bone that broke in a small fall, or cancer in a bone
safety-ask-chest = Chest pain, or a heart that flutters or skips
safety-ask-breath = Very short breath, or short breath when you lie flat
safety-ask-illness = Heart, lung or kidney disease, or diabetes
safety-ask-pressure = High blood pressure that is not under control
safety-ask-vessel = A blood clot, or a bulge in a large blood vessel
safety-ask-weight = You smoke, or you are very overweight
safety-ask-fall = A fall in the last year, or pain that a fall has left
safety-ask-dizzy = Dizziness, now or when you stand up
safety-ask-nerves = A stroke, Parkinson’s disease or trouble with memory
safety-ask-surgery = A new hip or knee, or an operation or a broken bone in the last 3 months
safety-ask-eye = Bleeding in an eye, or an eye operation
safety-ask-hernia = A hernia that hurts, or a tight heart valve
safety-ask-sore = A swollen joint, or a foot sore that does not heal
safety-ask-symptom = Weight loss or a new problem without a known cause
# The same for the cards, which have few pages beside them.
safety-brief-title = Ask your doctor first if you have
safety-brief-illness = An illness of the heart, lungs, kidneys, blood vessels, nerves or eyes, diabetes, cancer, or high blood pressure
safety-brief-signs = Chest pain, short breath, dizziness, falls
safety-brief-bones = A broken bone, a new hip or knee, an operation
safety-brief-new = A break in the spine, or weak bones and you are new to exercise
safety-brief-habits = The habit of smoking, or far too much weight
safety-brief-other = A hernia, a sore or any new problem
safety-brief-disclaimer = This is general advice. What your clinician says comes first.
safety-ask-fever = Do not exercise with a fever or an infection.

safety-ready-title = Get ready
safety-ready-support = Stand next to something that cannot move, such as a kitchen counter.
safety-ready-shoes = Wear shoes that fit well and do not slip.
safety-ready-floor = Clear the floor of rugs, cords and pets.
safety-ready-phone = Keep a phone where you can reach it.
safety-ready-water = Have a chair close by for a rest.

safety-during-title = While you move
safety-during-start = Start gently. Build up slowly over weeks.
safety-during-breathe = Breathe out on the effort and in on the way back. Never hold your breath.
safety-during-bend = Bend at your hips with a long back. Do not round or twist your back.
safety-during-rest = Rest as long as you need.

safety-normal-title = What is normal
safety-normal-sore = Mildly sore muscles for a few days, and feeling a little tired, are normal.
safety-not-normal = Feeling worn out, sore joints and sharp pain are not normal. Stop and ask.

## Safety: the disclaimer

safety-disclaimer = These pages give general advice. They do not replace the advice of your own clinician. When the two differ, do what your clinician says.


## Page frame

skip-to-content = Skip to the main content
nav-label = Main
nav-home = Home
nav-exercises = Exercises
nav-safety = Safety
nav-evidence = Evidence
breadcrumb-label = You are here
footer-prepared = Prepared by
footer-contact = Questions? Get in touch.
footer-phone = Phone
footer-email = Email
footer-updated = This page was last checked on { $date }.
footer-plan =
    { $count ->
        [one] For educators: the plan of this series
       *[other] For educators: the plan of each series
    }
page-title = { $title } - { $site }
draft-mark = Draft
draft-about = This is a draft. It has not been approved for clients. Do not use it to exercise.
print-label = On paper
calendar-link = Add the weeks to your calendar
feed-link = Follow the weeks in a feed reader
handout-link =
    { $pages ->
        [one] { $what }: { $size } point, { $paper } paper, { $pages } page (PDF)
       *[other] { $what }: { $size } point, { $paper } paper, { $pages } pages (PDF)
    }
handout-link-when-asked = { $what }: { $size } point, { $paper } paper (PDF)
handout-cards = Print this in large letters
handout-full = Print all of it, with what to feel and why
handout-one-page = Print the week on one page
paper-a4 = A4
paper-letter = Letter
new-window-none = Opens on another website


## Home

home-this-week = This week
home-first-week = The first week
home-open-week = Open week { $number }
home-all-series = All series
home-weeks =
    { $count ->
        [one] { $count } week
       *[other] { $count } weeks
    }
home-starts = Starts on { $date }
home-new-title = New here?
home-new-text = Read the safety page first. It takes 2 minutes.
home-safety-link = Go to the safety page
home-library-link = See all the exercises


## Series

series-label = Series
series-audience = Who it is for
series-starts = It starts on { $date }
series-weeks-title = Week by week
coverage-caption = Exercises of each week, by kind
coverage-how-to-read = Each row is a week. Each column is a kind of exercise. A dashed box means no exercise of that kind.
coverage-week = Week
coverage-gap = None
coverage-unread = Could not all be read
coverage-region = Table of the weeks
serves-title = Written with care for people who have


## Week

week-number = Week { $number }
week-title = Week { $number }: { $title }
week-of = Week of { $date }
week-glance-title = This week at a glance
week-exercises-title = The exercises
week-previous = Previous week
week-next = Next week
week-nav-label = Other weeks
week-back-to-series = All the weeks of { $series }
question-title = Question of the week
video-title = The video
video-watch = Watch the video ({ $length })
# $host is where a video elsewhere is, such as "video.example".
video-elsewhere = The video is on { $host }. It opens there when you press the button.
video-play = Play the video ({ $length })
video-here = It plays on this page. It starts only when you press.
video-captions = The video has captions.
# $language is the name of a language.
video-captions-label = Captions: { $language }
video-chapters-title = Parts of the video
video-chapter-welcome = Welcome
video-at = In the video at { $time }


## What is said in a video

transcript-title = What is said in the video
transcript-open = Read it here
language-en = English
language-es = Spanish

## Feeds and calendars

feed-exercise = { $title }: { $dose }
# $exercises is a list such as "wall slide and heel drop".
calendar-practice = Practice: { $exercises }
series-calendar = Add this series to your calendar
series-feed = Follow this series in a feed reader
preview-alt = { $week }, { $site }

## A week in short, for a video's description and for a letter

# $who reads as in "If you have a break in the spine".
digest-caution = { $who }: { $level } { $text }
digest-page = The page of this week
digest-open-page = Open the page of this week
digest-open-video = Watch the video
# $names is a list such as "Ida and Joan".
thanks-line = Thank you, { $names }.

## What a device keeps

footer-saved = Read without the internet
newer-ready = There is a newer version of these pages.
newer-show = Show the newer version
saved-title = Read without the internet
saved-lead = You can read these pages without the internet. When you have opened them once, your device saves them.
saved-looking = Looking at what this device has saved.
saved-saving = Your device is saving these pages. Stay online for a moment.
saved-all = These pages are saved on this device.
saved-some = Some of these pages are saved on this device. The internet broke off before the rest.
saved-full = This device has no room for all of these pages. The rest needs the internet.
saved-broken = These pages are not saved. The internet broke off, or this device did not let them in.
saved-removed = The saved pages are removed. Nothing is saved again until you ask for it.
saved-forgetful = The saved pages are removed. This browser cannot remember your wish: your next visit saves them again.
saved-refused = This browser does not let the pages be saved. A private window does that. The pages need the internet.
saved-cannot = This browser cannot save these pages. They need the internet.
saved-file = You opened these pages from a file. They need no internet as long as you keep the file.
saved-no-scripts = Your device saves nothing, because scripts are turned off in this browser. These pages need the internet.
saved-count = On this device now: pages { "{pages}" }, handouts { "{sheets}" }.
saved-keep = Save these pages on this device
saved-again = Try again
saved-remove = Remove the saved pages
saved-what-title = What your device saves
saved-general = The first page, the list of exercises, the pages of the menu, the signs to stop, “My days”, and this page
saved-week = This week with its exercises and its handouts to print
saved-opened = Every other page that you have opened, from then on
saved-not-video = Videos are not saved. They need the internet.
saved-newer-title = When something changes
saved-newer = When these pages change, a line at the top of the page says so. You choose when to see the new version.

## Exercise page

ladder-title = Where this sits on the ladder
ladder-about = Each rung is a little harder than the one before. The easiest is first.
ladder-here = You are here
ladder-rung = Rung { $number } of { $count }
ladder-drawing = The ladder of { $title }
ladder-drawing-about = A ladder with { $count } rungs, the easiest on top. { $title } is on rung { $number }.
weeks-title = Weeks that use it
weeks-none = No week uses it yet.
exercise-back-to-library = All the exercises
figure-move = Show the movement
figure-stop = Stop the movement
figure-poses = Show the poses one by one


## Library

library-title = Exercises
library-lead = Every exercise, in one list. Each has an easier way and its cautions.
library-filter-title = Find an exercise
library-search = Words to look for
library-component = Kind of exercise
library-position = Position
library-support = Something to hold
library-equipment = What you need
library-precaution = Has advice for people with
library-precaution-help = Shows the exercises that have a way for these people. Ask your clinician all the same.
library-any = All
library-clear = Show all again
library-count-none = No exercise found. Remove one of your choices.
library-count-one = 1 exercise found.
library-count-many = { "{n}" } exercises found.
library-results = Exercises found
library-more = Show more exercises
library-find-clear = Start again
library-find-lead = All the exercises, by kind. Each has an easier way and its cautions.
library-part-lead = Exercises of one kind. Each has an easier way and its cautions.
library-part-filter-title = Find an exercise on this page
library-part-count-none = No exercise found on this page. Remove one of your choices, or look through all the exercises.
library-part-count-one = 1 exercise found on this page.
library-part-count-many = { "{n}" } exercises found on this page.


## Lists of exercises that stand on several pages. $list is what the whole list is called, $titles is such as
## "Chin tuck to Wall slide": the first exercise and the last.

part-kinds = Kinds of exercise
part-other-kinds = Other kinds of exercise
part-nav-label = More of this kind
part-title-only = { $list }: { $component }
part-title = { $list }: { $component }, page { $number } of { $count }
part-link-only = { $component }: { $exercises }
part-link = { $component }, page { $number }: { $titles }
part-titles = { $first } to { $last }
part-previous = Previous page: { $titles }
part-next = Next page: { $titles }
part-exercises =
    { $count ->
        [one] { $amount } exercise
       *[other] { $amount } exercises
    }


## A handout for one person: her cautions, what was left out, and why.
# $demand reads as in "it includes kneeling", $things is a list such as "exercise band and two pillows".

for-you = For you
left-out-title = Left out for you
left-out-stop = { $title }: its safety advice says not to do this one if you have { $precaution }.
left-out-avoid = { $title }: it includes { $demand }. That is not for you if you have { $precaution }.
left-out-modify = { $title }: it includes { $demand }. If you have { $precaution }, ask your clinician for a safer way.
left-out-ask = { $title }: it includes { $demand }. If you have { $precaution }, ask your clinician before you do it.
left-out-ask-first = { $title }: ask your clinician before you do it, because you have { $precaution }.
left-out-other-way = { $title }: if you have { $precaution }, it needs another way, and we found none that is safe for you.
left-out-things = { $title }: it needs something that you do not have: { $things }.
left-out-no-room = { $title }: it does not fit into your week.
left-out-unread = { $title }: part of it could not be read, so we could not make sure that it is safe for you.
left-out-unknown = { $title }: we could not make sure that it is safe for you.


## Evidence

evidence-title = Evidence
evidence-lead = These are the studies and guidelines that the exercises cite.
evidence-used-in = Used in
evidence-more =
    { $count ->
        [one] And { $amount } more page.
       *[other] And { $amount } more pages.
    }
evidence-read = Read it at { $place }
evidence-and-others = and others
evidence-cite = Source: { $source }


## The plan, a page for educators

plan-title = The plan
plan-for-educators = For educators
plan-not-for-clients = This page is for those who plan the weeks. If you exercise with us, you do not need to read it.
plan-about = All numbers are worked out from the doses you wrote. Where a dose leaves something open, a default is used. They say nothing about any one client: local rules and your own judgment come first.
plan-contents = On this page
plan-parts = Each series
plan-part-title = The plan: { $title }
plan-accepted = Accepted safety findings
plan-accepted-about = These go against a safety rule, and somebody answers for each. Look at them again from time to time.
plan-accepted-line = Accepted by { $by } on { $date }, { $age }: { $reason }
plan-accepted-today = today
plan-accepted-days =
    { $count ->
        [one] { $amount } day ago
       *[other] { $amount } days ago
    }
plan-accepted-weeks =
    { $count ->
        [one] { $amount } week ago
       *[other] { $amount } weeks ago
    }
plan-no-series = There is no series yet.
plan-no-weeks = This series has no week yet.
plan-coverage = Coverage
plan-load = Minutes and landings
plan-load-about = A session has every exercise of the week. A week has each of them on all its days. Landings are heel drops, stamps, hops and jumps, and both feet count. The solid part of a bar shows the lowest amount, the outline the highest.
plan-session-minutes = Minutes a session
plan-week-minutes = Minutes a week
plan-session-landings = Landings a session
plan-week-landings = Landings a week
plan-chart-about = A bar for each week, from its lowest to its highest amount. The table of numbers says the same.
plan-figures = The numbers of each week
plan-landings-low = { $amount } low
plan-landings-moderate = { $amount } moderate
plan-landings-high = { $amount } high
plan-grade = Flesch-Kincaid grade
plan-smog = SMOG grade
plan-reading-about = The two grades are those of the week's own text (welcome, cues and question), in years of school.
plan-unmeasured-language = Not measured: only English texts are
plan-unmeasured-short = Not measured: too short
plan-not-known = not known
plan-unknown-list = Not known: the list of exercises could not be read
plan-unknown-missing = Not known: there is no { $exercise }
plan-unknown-unread = Not known: { $exercise } could not be read
plan-unknown-twice = Not known: { $exercise } is in this week twice
plan-weeks = Weeks { $first } to { $last }
plan-ladders = Ladders
plan-no-ladder = No exercise of these weeks is on a ladder.
plan-ladder = { $component }: from { $first } to { $last }
plan-ladder-about = The weeks run from left to right, the rungs from top to bottom. A solid box is a week on that rung. The list says the same.
plan-rung-unused = In no week
plan-targets = Targets
plan-targets-about = An aim is met when the low end of the doses meets it. It may be met when only the high end does. For strength, each week shows the lowest to the highest of its exercises. The sources disagree, so each aim can be set for the site or for a series.
plan-target-posture-days = Days of posture a week
plan-target-balance-days = Days of balance a week
plan-target-balance-minutes = Minutes of balance a week
plan-target-strength-days = Days of strength a week
plan-target-strength-sets = Sets of each strength exercise
plan-target-strength-reps = Repetitions in a set of strength
plan-target-impact-days = Days with landings a week
plan-target-impacts = Landings a session
plan-aim = Aim: { $amount }.
plan-aim-none = No aim.
plan-aim-series = Set for this series. The default is { $amount }: { $source }.
plan-aim-site = Set for this site. The default is { $amount }: { $source }.
plan-aim-default = The default: { $source }.
plan-aim-not-for = This series also serves people with { $precaution }, and the default is not meant for them: { $source }.
plan-aim-unread = The targets of this series, or whom it serves, could not be read.
plan-met =
    { $count ->
        [one] Met in { $met } of the 1 week that has it.
       *[other] Met in { $met } of the { $count } weeks that have it.
    }
plan-perhaps-met =
    { $count ->
        [one] May be met in { $amount } more.
       *[other] May be met in { $amount } more.
    }
plan-perhaps = may be met
plan-below = below
plan-above = above
plan-below-and-above = below and above
plan-nothing = none
plan-limits = Limits
plan-words = Words to paste
plan-words-about = For each week: the text below its video, and a letter to your readers.
plan-words-video = Text below the video
plan-words-letter = Letter, as plain text
plan-words-letter-page = Letter, for a mail program
plan-limit-regions = Here are the regions of the body that the strength exercises of each week train. Advice asks for one exercise each for the legs, arms, chest, shoulders and back ({ $source }). Short weeks have this limit. It is not a mistake.
plan-regions = { $trained }; not { $missing }
plan-regions-all = all five
plan-regions-none = none of the five
plan-region-legs = legs
plan-region-arms = arms
plan-region-chest = chest
plan-region-shoulders = shoulders
plan-region-back = back
plan-proposals = Proposals
plan-proposals-week = Proposals for week { $number }
plan-proposals-about = These are proposals for a licensed clinician to judge. For each component, the exercises that could come next are listed in order, the best first, each in its own dose. None is more than one rung up a ladder, and each has an answer for everyone whom this series serves.
plan-proposals-unknown = There are none: what came before could not all be read.
plan-choice = The chosen exercises fit together: { $amount } minutes a session, at most { $most }.
plan-unfit-minutes = No choice fits: every one takes at least { $least } minutes, and a session may take { $most }.
plan-unfit-landings = No choice fits: every one has at least { $least } landings a session, and the limit is { $most }.
plan-unfit-nothing = No choice fits: there is nothing to propose for { $components }. Keep an exercise on purpose, or add one.
plan-chosen = Chosen
plan-nothing-next = Nothing to propose.
plan-more =
    { $count ->
        [one] And { $amount } more.
       *[other] And { $amount } more.
    }
plan-not-proposed = Not among the best, and why
plan-next-rung = One rung up from { $exercises }
plan-same-rung = The rung where the series stands, last in week { $week }
plan-new-movement = New, with nothing that has to come before it
plan-lower-rung = An easier rung again, last in week { $week }
plan-needs-nothing = Needs no equipment
plan-at-hand = At hand: { $things }
plan-new-equipment = Needs something new: { $things }
plan-other-form = Another form for people with { $precaution }: { $form }
plan-no-form = No safe form for people with { $precaution }
plan-not-unread = Its field { $field } could not be read
plan-not-answered = No answer for people with { $precaution }: { $demand }
plan-not-for-all = As it stands it is for nobody here, where all have { $precaution }
plan-not-rung = No earlier week used { $exercises }, just below it
plan-not-impact = It asks for this: { $impact }. No earlier week has this: { $before }.
plan-not-recent = It was in week { $last } and may return in week { $returns }
plan-not-same-dose = Week { $week } has it in the same dose
plan-not-landings = { $landings } landings a session, more than { $most }
plan-not-work = { $minutes } minutes of work a week, after at most { $before } in the weeks before
plan-not-minutes = It takes { $minutes } minutes by itself


## Figures, two pages for educators

figures-title = Every figure
figures-about = All figures of the exercises, each with the lines that draw it. Look at them next to each other: the same thing should look the same everywhere.
figures-gray = Show them in gray, as a black printer does
figures-lines = The lines that draw it
figures-none = No exercise has a figure yet.
figures-without = Exercises without a figure

drawing-title = How to draw a figure
drawing-about = You write a few lines in the file of an exercise, and the program draws a figure from them. Every picture on this page is drawn from the very lines below it.
drawing-about-poses = Each [[figure.pose]] is one moment: its base position, and what differs from it. Two or three poses show the movement from start to finish. Angles are degrees from upright standing with the palms forward (the anatomical position). Lengths are centimeters, for a person of 160 cm.
drawing-about-description = Every figure needs a description for those who do not see it. Here only the first has one, to keep the others short.
drawing-about-look = Look at each figure before you give it to anybody. The program knows what a body can do and hold. Whether this is the right exercise, only you can tell.
drawing-example = A figure that shows what its name says, drawn from the lines beside it.
drawing-whole = A whole figure
drawing-whole-about = What it shows, the things around the person, and two poses. The arrow follows the hips from the first pose to the last.
drawing-bases = Base positions
drawing-bases-about = Each pose starts from one of seven. A pose that names nothing else stays as it is here.
drawing-views = Views and layouts
drawing-views-about = From the side she faces to the right, and her right side is near. From the front she faces you. From above she faces you as well, from halfway up. Lying and prone are drawn from the side or from above, side-lying from the front or from above, hands and knees from the side only. “faces” turns a view from the side around: then she faces left, and her left side is near. A rounded upper back is in degrees.
drawing-hip = Hips
drawing-hip-about = “hip” turns both hips, “left_hip” and “right_hip” turn one. The same holds for every joint that has two sides.
drawing-knee = Knees
drawing-knee-about = Degrees from the straight knee.
drawing-ankle = Ankles
drawing-ankle-about = In a standing pose the program finds the ankles by itself, so that the weight is over the feet.
drawing-shoulder = Shoulders
drawing-shoulder-about = Rotation starts from the forearm pointing straight ahead, with the elbow bent.
drawing-elbow = Elbows
drawing-elbow-about = Degrees from the straight elbow.
drawing-wrist = Wrists
drawing-wrist-about = Flexion bends the palm toward the forearm.
drawing-shoulder-blade = Shoulder blades
drawing-shoulder-blade-about = Small movements: the arms go with them.
drawing-spine = Spine
drawing-spine-about = The whole trunk shares the angle. Think of those with low bone density before you draw flexion or a twist.
drawing-neck = Neck
drawing-neck-about = Retraction tucks the chin, protraction pushes it forward.
drawing-props = Things
drawing-props-about = A name alone puts a thing where it is most often. Say “place”, “distance” and “height” to put it elsewhere. A band goes from one part of the body to another. A cushion or a rolled towel lies “under” a part, or “between” two.
drawing-holds = What the hands hold
drawing-holds-about = The arms reach by themselves. “left_hold” and “right_hold” are for one hand, “hold_at” is the height on a wall.
drawing-feet = Feet
drawing-feet-about = “feet” is for both, “left_foot” and “right_foot” for one. A lifted leg hangs by the angles of its own hip and knee.
drawing-stances = Stances and weight
drawing-stances-about = How the feet stand to each other, and which of them carries the weight. “front_foot” says which is ahead, “stride” how far. “moved” says which foot has moved since the pose before: the other stays where it stood.
drawing-rests = Leaning, lifting, and jumping
drawing-rests-about = What the back leans on, how high the hips are lifted, and how high both feet leave the floor, in centimeters.
drawing-marks = Arrows and labels
drawing-marks-about = An arrow shows the way from pose to pose of what moves most, or of the parts that “arrows” names; an empty list draws none. “pace” is for the moving picture: a drop or a stamp is quick. A label is a number in the picture, with its words below it.


## Not found

not-found-title = We cannot find this page
not-found-text = The page may have moved, or the address may have a mistake in it.
not-found-help = Try one of these:


## Lists of words

list-two = { $first } and { $last }
list-many = { $first }, and { $last }
list-or-two = { $first } or { $last }
list-or-many = { $first }, or { $last }
list-separator = { ", " }


## Dates

date-long = { $weekday }, { $month } { $day }, { $year }
date-day = { $month } { $day }, { $year }
month-1 = January
month-2 = February
month-3 = March
month-4 = April
month-5 = May
month-6 = June
month-7 = July
month-8 = August
month-9 = September
month-10 = October
month-11 = November
month-12 = December
weekday-1 = Monday
weekday-2 = Tuesday
weekday-3 = Wednesday
weekday-4 = Thursday
weekday-5 = Friday
weekday-6 = Saturday
weekday-7 = Sunday
weekday-short-1 = Mon
weekday-short-2 = Tue
weekday-short-3 = Wed
weekday-short-4 = Thu
weekday-short-5 = Fri
weekday-short-6 = Sat
weekday-short-7 = Sun


## Tables in prose

table-label = table { $number }


## Printed handouts

card-stop = Stop if you have pain, or feel dizzy or breathless.
card-emergency = Chest pain, or you faint:
card-page = page { "{page}" }
card-more = Illness, pain or an old injury? Read page { "{page}" } first.
card-more-title = Is one of these yours?
card-more-lead = Then ask us for a handout of your own before you start. It says what is safe for you.
care-who = { $count ->
    [one] This exercise is not for you, or not as it is shown,
   *[other] Some of these exercises are not for you, or not as they are shown,
  } if you have { $who }.
start-title = Start here
start-card = page { "{page}" }
start-emergency = Emergency:
start-questions = Questions:
start-welcome = Welcome
sheet-exercises-title = Your exercises
sheet-page = Page { $number } of { $count }
sheet-needs-title = What you need this week
sheet-personal-title = { $title }: a personal handout
sheet-for = For { $name }
sheet-days = Your days: { $days }.
sheet-your-way = Your own way to do exercise { $number } of this week
sheet-your-own-way = Your own way to do this exercise
sheet-how = How to do it
your-change = What you change
sheet-online-title = On a screen
sheet-online-week = Point the camera of a phone at this square, or type the address, to see this week with its video.
sheet-online-exercise = Point the camera of a phone at this square, or type the address, to see this exercise.
sheet-code = Square code for phones. It leads to { $address }
sheet-about-title = About this handout
sheet-prepared = Prepared by { $name }
sheet-made = Made on { $date }
sheet-contact-title = Questions?
sheet-contact = Get in touch before you go on.
sheet-note = Note { $number }
log-title = Your practice log
log-how = Check a box when you have done the exercise.
log-how-spread = Check off what you do. Heavy boxes are a good plan.
log-exercise = Exercise
log-choose =
    { $count ->
        [one] Choose { $amount } day
       *[other] Choose { $amount } days
    }
log-cell = { $day }, { $exercise }: check it off
log-cell-planned = { $day }, { $exercise }: check it off. This is a good day for it.
log-cell-rest = { $day }, { $exercise }: rest
log-rest = Rest
log-effort = How hard, from 0 to 10
log-effort-of = { $day }: how hard it was, from 0 to 10. Write a number
log-name = Name
log-begun = First day
log-felt = How it felt


## Cue sheet

cue-title = Cue sheet
cue-at = At
cue-aloud = Say aloud
cue-ask-first = If you have an illness, an old injury, pain or a new joint, ask your clinician before you do these. Your handout says more.
cue-barred = { $who }: { $level }
cue-props = Have at hand
cue-faults = Watch for
cue-easier = Easier
cue-harder = Harder
cue-question = The question
cue-next = Next week


## Pages that show pictures first, and the week of the reader's own day

nav-more = More
size-title = Size of the letters
size-1 = Normal letters
size-2 = Large letters
size-3 = Very large letters
read-aloud = Read this aloud
read-aloud-stop = Stop reading
now-last-week = The last week
# $date is the last day of a series.
now-ended = It ended on { $date }
now-all-weeks = All the weeks are still here. You can do any of them again.
# $dose is as in "10 times, 2 sets".
now-dose = This week: { $dose }
week-list-back = Back to the list
go-back = Back
go-next = Next
exercise-fold = Easier, harder, and more
exercise-fold-more = More about this exercise
# How many pieces of advice wait to be opened.
cautions-more =
    { $count ->
        [one] Illness, pain or an old injury? Read this first.
       *[other] Illness, pain or an old injury? Read these { $amount } first.
    }
week-words-title = About this week
paper-print = Print it
paper-others = Sizes and paper
week-video = Watch the video
transcript-link = Read what is said in the video
transcript-of = What is said in the video of { $week }
digest-more-cautions = There is more advice for people with one illness or another. Read it on the page of this week:
library-find = Find
library-more-choices = More choices


## What is true for the reader, and the form of an exercise that is hers. {who}, {demand}, {title}, {things} and {n} are
## filled in on her device.

yours-title = What is true for you
yours-lead = Say once what is true for you. Then each exercise shows first the way that is for you.
yours-scripts = To keep your answers, this page needs a browser that may run scripts. Without it each exercise shows all its ways, and for whom each is not.
yours-refused = This browser does not keep anything for these pages, so your answers could not be kept. Let somebody help you to allow it, or ask for a printed handout of your own.
yours-part = Part { "{n}" } of { "{count}" }:
yours-check = Check all that is true for you. Not sure about one? Check it: the safer way is shown. If nothing is true, go on.
yours-all-have = These exercises are made for people with { $who }, so you need not check that.
yours-group-bones = Your bones and your back
yours-group-joints = Your joints
yours-group-balance = Your balance, feeling and memory
yours-group-heart = Your heart, your eyes, operations
yours-group-more = And also
yours-group-things = What you have at home
yours-things-any = Show me the exercises whatever they need
yours-things-own = Show me ways that need only what I check here:
yours-back = Back
yours-next = Next
yours-done = Done
yours-know-title = Good to know
yours-kept = Your answers are kept in this browser, on this device only. They are sent to nobody. Whoever uses this device can see them.
yours-no-clinician = This does not replace your clinician. These pages know only what you check here. When you are not sure, ask before you exercise.
yours-ask-whom = Questions? Ask your clinician, or
yours-said-title = What you have checked
yours-said-nothing = Nothing on the list is true for you.
yours-said-things = At home you have:
yours-said-no-things = At home you have none of the things on the list.
yours-old = Something that you checked before is no longer on the list. Until you look through it again, no exercise is shown as yours.
yours-see = See the exercises
yours-change = Change
yours-clear = Clear
yours-cleared = Your answers are cleared.
yours-undo = Bring them back
yours-told = Kept. Each exercise now shows first the way that is for you.
yours-told-back = Your answers are back.
yours-chip-none = For you: nothing checked
yours-chip-one = For you: 1 thing
yours-chip-many = For you: { "{n}" } things
yours-invite = See what is for you
yours-invite-list = See what suits you
yours-filter = Only what suits me
yours-form = For you: { $title }
yours-fine = Nothing that you checked speaks against this exercise as it is shown here.
yours-none = We found no way of it that is for you. Ask your clinician.
yours-not = Not for you: { $title }
yours-ask-before = Ask before you do this: { $title }
yours-show = Show it all the same
yours-hide = Hide it again
yours-card-fine = For you, as it is shown
yours-card-form = For you: { $title }
yours-card-not = Not for you.
yours-unsure = We could not make sure that it is safe for you.
yours-stop = Its safety advice says not to do it if you have { $precaution }.
yours-avoid = It includes { $demand }. That is not for you if you have { $precaution }.
yours-other-way = It needs another way if you have { $precaution }.
yours-ask-first = Ask your clinician before you do it, because you have { $precaution }.
yours-ask = It includes { $demand }. If you have { $precaution }, ask your clinician before you do it.
yours-modify = It includes { $demand }. If you have { $precaution }, ask your clinician for a safer way.
yours-lacks = It needs something that you do not have: { $things }.
# What a variation does not ask of the body.
yours-avoids = It leaves out { $what }.
## Practice now: a page that counts an exercise out. $time is "60 seconds".

now-title = Practice now
now-head-title = Practice now: { $title }
now-about = { $title }, counted out loud, one exercise at a time.
now-back-to-week = Back to { $week }
now-back-to-exercise = Back to { $title }
now-link = Practice now
now-emergency = Emergency?
now-start = Start
now-start-about = It starts only when you press. Between two exercises it waits for you.
now-list-title = What you will do
now-plain-title = Every part, with its seconds
now-plain-about = You can read the parts here and count by yourself.
now-part-list = The parts
now-other-ways = Other ways to do it
now-whole-page = All about { $title }
now-fewest = The voice counts { $few }. When that feels easy, you can do { $many }.
now-steps-own = How to do it
now-part-ready = Get ready: { $time }
now-part-reps =
    { $count ->
        [one] { $amount } time: { $time }
       *[other] { $amount } times: { $time } each
    }
now-part-holds =
    { $count ->
        [one] Hold: { $time }
       *[other] { $amount } times: hold for { $time } each time
    }
now-part-held =
    { $count ->
        [one] { $amount } time: { $time }, with a hold of { $hold }
       *[other] { $amount } times: { $time } each, with a hold of { $hold }
    }
now-part-hold = Hold: { $time }
now-part-alternating = { $part }, changing sides each time
now-part-between = { $part }. Rest { $time } in between
now-part-time = Keep going: { $time }
now-part-change = Change sides: { $time }
now-part-rest = Rest: { $time }
now-stop = Stop
now-stopped-title = Stop. Sit or lie down.
now-stopped-lead = Does something feel wrong? Then do not go on today.
now-signs-here = The signs to stop, on this page
now-go-on = I am well. Go on.
now-end-here = That is all for today
now-controls = Counting
now-settings = Sound and speed
now-pause = Pause
now-back = Back
now-skip = Skip
now-easier = Easier
now-slower = Slower
now-faster = Faster
now-sound = Sound
now-voice = Voice
now-easier-title = Make it easier
now-easier-keep = Go on as it was
now-count-most = Count the most
now-next-button = Next
now-again = Do this one again
now-finish = Finish
now-done-title = Done for today
now-done-lead = Sit down and rest for as long as you like.
now-done-list = What you did
now-effort = How hard was it?
now-effort-none = I would rather not say
now-felt = How did it feel?
now-felt-help = In your own words. You can leave this empty.
now-trouble = Did you fall, or did something hurt?
now-trouble-none = No
now-trouble-fall = I fell
now-trouble-pain = Something hurt
now-trouble-other = Something else was wrong
now-trouble-call = Call now if any of these fits you
now-trouble-clinic = Else call your clinician today, and do not practice again until you have talked.
now-keep = Write it down
now-keep-about = It stays on this device. Nobody else sees it.
now-keep-not = This page keeps nothing. Write it in the log on your handout.

## Practice now: what the script says. What stands in braces is filled in by it.

now-js-ready = { "{title}. {part}." }
now-js-do-ready = Get ready
now-js-do-go = Move
now-js-do-hold = Hold
now-js-do-back = And back
now-js-do-rest = Rest
now-js-do-change = Change sides
now-js-do-time = Keep going
now-js-seconds = seconds
now-js-of-reps = { "of {n}" }
now-js-set = { "Set {n} of {m}" }
now-js-side-one = First side
now-js-side-other = Other side
now-js-next = { "Next: {what}" }
now-js-next-set = { "Next: set {n} of {m}." }
now-js-next-end = Next: the end of this exercise
now-js-hold = Hold
now-js-hold-number = { "{n}. Hold." }
now-js-back = And back
now-js-done = Done. Press Next when you are ready.
now-js-done-last = Done for today. Well done.
now-js-exercise = { "Exercise {n} of {m}" }
now-js-exercise-alone = Your exercise
now-js-finished = { "{title} is done" }
now-js-then = { "Next: {title}. Rest as long as you need." }
now-js-last = That was the last one.
now-js-pause = Pause
now-js-go-on = Go on
now-js-paused = Paused
now-js-am-ready = I am ready
now-js-skip = Skip
now-js-speed-1 = Speed: much slower
now-js-speed-2 = Speed: slower
now-js-speed-3 = Speed: as planned
now-js-speed-4 = Speed: a little faster
now-js-no-voice = This device has no voice for this language. It counts with tones.
now-js-no-sound = This device makes no sound here. Watch the number.
now-js-no-lock = Your screen may go dark by itself. Touch it now and then.
now-js-hidden = Paused, because you left the page.
now-js-count-most = Count the most
now-js-count-fewest = Count the fewest
now-js-for-you = { "For you: {title}" }
now-js-not-for-you = Not for you as it stands. Ask your clinician.
now-js-other-dose = Your caution changes how much you do. Do it as its own page says.
now-js-none-for-you = None of these exercises is for you as it stands. Ask your clinician.
now-js-instead = { "Do this one: {title}" }
now-js-sets-one = { "{n} set" }
now-js-sets-many = { "{n} sets" }
now-js-not-done = not done to the end
now-js-kept = It is written down on this device.
now-js-not-kept = This device could not keep it. Write it in the log on your handout.
now-js-nothing = There is nothing to write down. Tick what you did.

## What the numbers of the effort mean, where somebody writes down how hard it was

effort-0 = no effort
effort-1 = hardly any
effort-2 = very easy
effort-3 = easy
effort-4 = fairly easy
effort-5 = some effort
effort-6 = a good effort
effort-7 = hard
effort-8 = very hard
effort-9 = nearly all I had
effort-10 = as hard as I could

## My days: what a client has done, kept on her own device.
## Words that begin with days-say are said by the page's script, which puts values in the place of { "{n}" } and the like.

nav-days = My days
days-title = My days
days-lead = Check off what you have done. It stays on this device. Nobody else sees it unless you send it.
days-whom = A fall, or new pain? See whom to call
days-call-educator = You can also call
days-nobody-told = This page tells nobody about it. Please make the call yourself.
days-not-again = Do not practice again before you have talked with your clinician.
days-no-scripts = This page cannot keep your days, because scripts are turned off in this browser.
days-no-scripts-paper = Here is the other way. Print this page, and check off the boxes with a pen.
days-series = Which series
days-earlier = Week before
days-later = Week after
days-now = Go to today
days-to-come = Still to come
days-another = Another exercise
days-another-none = Choose one to check it off
days-not-said = Not written
days-sets = How many sets
days-effort = How hard it was
days-form = Which way you did it
days-form-shown = As it is shown first
days-felt = How it felt
days-trouble = Did something go wrong?
days-trouble-none = No
days-trouble-fall = I had a fall
days-trouble-pain = I had pain
days-trouble-other = Something else
days-take-off = Take this one off
days-chart-title = Week by week
days-chart-about = Each exercise counts once for each day on which you did it. The box is as long as what the week asks. The filled part is what you did.
days-chart-none = Nothing is checked off yet.
days-keep-title = Keep a copy
days-keep-about = Your days are on this device, in this browser, and nowhere else. A private window forgets them when you close it. Save them to a file now and then. With the file you can bring them to a new phone.
days-empty = Nothing is kept on this device yet. Did you have days here before? Then the browser has cleared them, or you are in another browser. Bring them back from a file, below.
days-save = Save my days to a file
days-bring = Bring days back from a file
days-bring-about = The days of the file are added. What is here already stays.
days-print = Print my days
days-send-title = Send your days
days-send-to = They go to
days-send-about = Your own mail program opens with the text. Nothing is sent before you press Send there. Mail is not secret: take out what is private.
days-send-much = What to send
days-send-week = The week above
days-send-all = Everything
days-send-text = The text
days-send-mail = Open my mail program
days-send-copy = Copy the text
days-erase-title = Erase everything
days-erase-about = All your days go from this device. A file that you have saved stays.
days-erase = Erase all my days
days-ask-no = No, keep them

days-say-today = today
days-say-done-none = Nothing yet
days-say-done-one = 1 done
days-say-done-many = { "{n}" } done
days-say-span = { "{from}" } to { "{to}" }
days-say-before = Before the first week
days-say-after = After the last week
days-say-starts = The first week starts on { "{day}" }. You can check it off then.
days-say-no-series = There is no series yet. What you do with Practice now is kept here all the same.
days-say-went = How it went
days-say-practice = With Practice now
days-say-sets-one = 1 set
days-say-sets-many = { "{n}" } sets
days-say-effort = effort { "{n}" } ({ "{word}" })
days-say-felt = your words
days-say-fall = a fall
days-say-pain = pain
days-say-other = something went wrong
days-say-open = Show { "{week}" }
days-say-of = { "{n}" } of { "{asked}" }
days-say-range = { "{low}" } to { "{high}" }
days-say-extra = and { "{n}" } more
days-say-ask-off = Take { "{title}" } off this day? What you wrote about it goes too.
days-say-yes-off = Yes, take it off
days-say-ask-erase-one = Erase the 1 thing that you have checked off? This cannot be undone.
days-say-ask-erase-many = Erase all { "{n}" } things that you have checked off? This cannot be undone.
days-say-ask-erase-none = There is nothing to erase.
days-say-yes-erase = Yes, erase all
days-say-erased = Everything is erased.
days-say-erased-elsewhere = Everything was erased in another window.
days-say-saved-one = 1 entry is saved in the file { "{file}" }. Look for it where your device puts downloads.
days-say-saved-many = { "{n}" } entries are saved in the file { "{file}" }. Look for it where your device puts downloads.
days-say-save-none = There is nothing to save yet.
days-say-brought = From the file: { "{added}" } new, { "{same}" } here already.
days-say-brought-renewed = { "{n}" } were newer in the file, and are now as they are there.
days-say-brought-kept = { "{n}" } are different in the file. They stay as they are here.
days-say-refused-other = This file is not one of your days. Choose a file that this page has saved. Nothing was changed.
days-say-refused-damaged = This file is damaged. Nothing of it was taken, and nothing here was changed. Is there another copy?
days-say-refused-newer = This file is from a newer version of these pages. Go online, open this page again, and then bring it back. Nothing was changed.
days-say-refused-large = This file is too large to be one of your days. Nothing was changed.
days-say-copied = The text is copied.
days-say-not-copied = The text could not be copied. Press and hold on it to copy it yourself.
days-say-long-mail = This is too long for a mail program to take over. Press “Copy the text”, open the mail program, and paste it there.
days-say-long-body = (Paste the text here.)
days-say-subject = My days: { "{what}" }
days-say-all = everything
days-say-nothing = Nothing checked off.
days-say-missing = This browser keeps nothing for this page. A private window does that. You can go on, but all goes when you close the page. Save it to a file first.
days-say-broken = This browser cannot read or keep your days just now. You can go on, but what you write now goes when you close the page. Save it to a file first.
days-say-full = This device has no room left. What you wrote last is only on this page, and goes when you close it. Save it to a file, or make room and press “Try again”.
days-say-newer = A newer version of these pages has kept your days. Nothing is lost. Close all windows of this site, go online, and open this page again.
days-say-blocked = Another window of this site is in the way. Close it, then press “Try again”.
days-say-again = Try again
days-say-kept-again = All of it is kept on this device now.
days-say-cleared-one = Your browser has cleared what was kept here. There was 1 entry. If you have saved a file, bring it back below.
days-say-cleared-many = Your browser has cleared what was kept here. There were { "{n}" } entries. If you have saved a file, bring it back below.
days-say-cleared-here = The entries are still on this page. Keep them again?
days-say-put-back = Keep them again
days-say-known = I know, start anew
days-say-ahead-one = 1 entry has a day that is still to come: { "{day}" }. Nothing is lost. Is the date of this device right? It says { "{today}" }.
days-say-ahead-many = { "{n}" } entries have a day that is still to come. The first is { "{day}" }. Nothing is lost. Is the date of this device right? It says { "{today}" }.
days-say-show = Show it
days-say-gone = This was taken off in another window. It is here again, with what you changed.
days-say-col-day = Day
days-say-col-exercise = Exercise
days-say-col-went = How it went

## The page of one person: one file, for a telephone or a computer, that needs no other.

own-about = This page is one file. It works without the internet, and it sends nothing by itself. Whoever has the file can read it.
own-needs = What you need
own-list-title = What you do, and on which days
own-days = Your days
own-today = Do this one now
now-not-today = Not planned for today in one way to spread the week: { $days }. Rest is part of the plan.
own-not-today = Not planned for today. Your days: { $days }. Rest is part of the plan.
own-none = There is nothing to practice on this page. Please ask your clinician.
own-none-today = Nothing is checked above. If no exercise is planned for today, rest. Rest is part of the plan.
own-leave = Back to my page
