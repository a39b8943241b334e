package lesson

// A Named is a lesson that comes with the bench. Its name is its link.
type Named struct {
	Name string
	Lesson
}

// Shipped are the lessons that come with the bench, in the order of a course. Every
// figure in a caption is a reading, computed when it is shown. A name never changes once
// it is published.
var Shipped = []Named{
	{"squirt", Lesson{
		Title: "What squirt is",
		Steps: []Step{
			{"side=0&back=0&elev=0deg", "Harbour Hall's Tuesday class starts at centre ball. The cue lies on the aim line and hits the middle of the ball. The ball goes where the cue points."},
			{"back=0&elev=0deg", "Move the whole cue over, parallel to the aim line, and hit {side} of centre. The ball leaves {launch} of the cue's line. This angle is squirt."},
			{"side=-0.4&back=0&elev=0deg", "Now the other side: hit {side} of centre and the ball leaves {launch}. Squirt always pushes the ball away from the english."},
			{"side=0.2&back=0&elev=0deg", "Hit nearer the centre, {side}, and squirt is smaller: {squirt}."},
			{"back=0&elev=0deg&speed=14mph", "Back to {side}, but harder: {speed}. Squirt is {squirt}, the same as before. In this model, speed does not change squirt."},
			{"back=0&elev=0deg&pivot=19in", "Another cue, with less mass at its end: {end-mass}. Same hit, and squirt is {squirt}."},
		},
		Question: Question{"Keep the cue parallel to the aim line. How much english still gets past the blockers? Drag the tip.", "side", Passes},
	}},
	{"pivot", Lesson{
		Title: "How the right bridge cancels squirt",
		Steps: []Step{
			{"side=0&elev=0deg&bridge=13in&gate=0in", "Put the bridge hand {bridge} from the ball and leave it there. The tip is at the centre and the cue is on the line."},
			{"elev=0deg&bridge=13in&gate=0in", "Swing the back hand out. The tip moves to {side} of centre and the cue points {heading}. Squirt takes back {squirt}, so the ball leaves {launch}."},
			{"elev=0deg&bridge=11.4in&gate=0in", "With a bridge of {bridge} the cue points {heading}, squirt is {squirt} and the ball leaves straight. This bridge is the cue's natural pivot at this offset."},
			{"elev=0deg&bridge=11.4in&pivot=9.5in&gate=0in", "This cue squirts more, {squirt}, so it needs more turn. Its natural pivot at this offset is {pivot-natural}. With the same bridge as before, the ball leaves {launch}."},
			{"elev=0deg&bridge=11.4in&pivot=19in&gate=0in", "This one squirts less, {squirt}, and needs less turn. Its natural pivot at this offset is {pivot-natural}. With the same bridge, the ball leaves {launch}."},
			{"elev=0deg&bridge=16in&pivot=9.5in&gate=0in", "Back to the cue that squirts more, with a long bridge. The ball leaves {launch}."},
		},
		Question: Question{"Where must the bridge hand be for the ball to leave straight? Drag it.", "bridge", Launches},
	}},
	{"length", Lesson{
		Title: "Bridge too short, bridge too long",
		Steps: []Step{
			{"bridge=12.5in", "Right english with the back hand alone, and two blockers {gate} away. With a bridge of {bridge} the ball passes clean and arrives {arrival}."},
			{"bridge=7in", "Too short: the cue turns {heading}, and squirt takes back only {squirt}. The ball arrives {arrival}, on the side of the english."},
			{"bridge=20in", "Too long: the cue turns {heading}, and squirt is {squirt}. The ball arrives {arrival}, away from the english."},
			{"bridge=20in&side=-0.4", "Left english mirrors this. Too long: the ball arrives {arrival}."},
			{"bridge=7in&side=-0.4", "Too short: the ball arrives {arrival}. So if you miss on the side of the english, use a longer bridge. If you miss on the other side, use a shorter one. Poor aim makes you miss too, but to the same side with either english."},
			{"bridge=6in&gap=2.6in", "Tuesday's test: right english again, with a gap of {gap}. With a bridge of {bridge} the ball arrives {arrival}."},
		},
		Question: Question{"How far back must the bridge hand go for the ball to pass clean? Drag it.", "bridge", Passes},
	}},
	{"swerve", Lesson{
		Title: "Swerve bends the ball back",
		Steps: []Step{
			{"back=0&elev=0deg&gate=0in", "A level cue, parallel to the aim line. The ball squirts {squirt} and runs straight: it arrives {arrival}."},
			{"back=0&elev=5deg&gate=0in", "Raise the butt to {elev}. Most strokes have a little of this. Now the spin grips the cloth and bends the path. Swerve is {swerve}, and the ball arrives {arrival}."},
			{"back=0&elev=10deg&gate=0in", "Raise it to {elev}. Swerve is {swerve}, and the ball arrives {arrival}."},
			{"back=0&elev=5deg&speed=3.5mph&gate=0in", "Lower the butt again, and play softer: {speed}. The ball has more time to bend. Swerve is {swerve}, and the ball arrives {arrival}."},
			{"back=0&elev=5deg&speed=14mph&gate=0in", "Play hard, {speed}: the ball gets there before it bends far. Swerve is {swerve}, and the ball arrives {arrival}."},
			{"back=0&elev=2deg&speed=4mph&dist=48in&gate=0in", "A soft shot, {speed}, to a target {dist} away, with the cue still parallel. It arrives {arrival}."},
		},
		Question: Question{"How high must the butt be for swerve to cancel squirt? Drag the elevation.", "elev", Arrives},
	}},
	{"hands", Lesson{
		Title: "Back hand and front hand",
		Steps: []Step{
			{"bridge=8in", "A short bridge, {bridge}, and the back hand alone. The cue turns {heading}. That is too much: the ball arrives {arrival}."},
			{"bridge=8in&back=0&front=1", "The front hand alone: the cue turns about the grip, {grip} behind the bridge. It turns {heading}. That is too little: the ball arrives {arrival}."},
			{"bridge=8in&back=0.5&front=0.5", "Half with each hand. The cue turns {heading}, and the ball arrives {arrival}."},
			{"bridge=20in", "A long bridge, {bridge}. Even the back hand alone turns the cue too little, {heading}: the ball arrives {arrival}."},
			{"bridge=20in&back=1.8&front=-0.8", "So the back hand goes too far, to {back}, and the front hand brings the cue back, {front}. The cue turns {heading}, and the ball arrives {arrival}."},
			{"bridge=9in&speed=9mph", "A bridge of {bridge} that can't move, and a firm shot, {speed}. With the back hand alone the ball arrives {arrival}."},
		},
		Question: Question{"What share with the back hand, and the rest with the front hand, sends the ball down the line? Drag the back hand.", "back", Arrives},
	}},
	{"aim", Lesson{
		Title: "Throw, and the full aim",
		Steps: []Step{
			{"side=0&object=20in&gate=0in", "An object ball straight ahead, and a pocket {object} behind it. Hit full with no english, it goes straight: throw is {throw}."},
			{"object=20in&back=0.89&front=0.11&gate=0in", "Right english, aimed so that the cue ball still arrives {arrival}. When the balls meet, the spin drags the object ball to the side: throw is {throw}."},
			{"object=20in&speed=3mph&elev=0deg&back=1.07&front=-0.07&gate=0in", "Slow balls grip more. At {speed}, with the cue ball {arrival}, throw is {throw}."},
			{"object=20in&cut=25deg&side=0&gate=0in", "A cut throws the object ball even with no english. At {cut} the balls rub as they part, and throw is {throw}, against the cut."},
			{"object=20in&cut=25deg&side=-0.4&back=0.89&front=0.11&gate=0in", "English on the outside of the cut, {side}, rubs the other way: throw is {throw}."},
			{"object=30in&dist=30in&speed=5mph&bridge=10in&gate=0in", "All of it at once: right english with a bridge of {bridge}, at {speed}. The cue ball arrives {arrival}, and would throw the object ball {throw}."},
		},
		Question: Question{"What share with the back hand, and the rest with the front hand, pockets the object ball? Drag the back hand.", "back", Pots},
	}},
}
