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
			{"side=0&back=0&elev=0deg", "Harbour Hall's Tuesday class begins in the middle. The cue lies on the aim line and meets the ball at its centre: the ball goes where the cue points."},
			{"back=0&elev=0deg", "Move the whole cue over, still parallel to the aim line, and hit {side} of centre. The ball leaves {launch} of the cue's line. That angle is squirt."},
			{"side=-0.4&back=0&elev=0deg", "The same on the other side: hit {side} of centre and the ball leaves {launch}. Squirt is always away from the english."},
			{"side=0.2&back=0&elev=0deg", "Hit nearer the centre, {side}, and squirt is smaller: {squirt}."},
			{"back=0&elev=0deg&speed=14mph", "Back to {side}, and harder: {speed}. Squirt is {squirt}, as it was. In this model speed makes no difference to it."},
			{"back=0&elev=0deg&pivot=19in", "Another cue, with less mass at its end: {end-mass}. The same hit, and squirt is {squirt}."},
		},
		Question: Question{"The cue stays parallel to the aim line. How much english still passes the blockers? Drag the tip.", "side", Passes},
	}},
	{"pivot", Lesson{
		Title: "Why a pivot can cancel it, and where",
		Steps: []Step{
			{"side=0&elev=0deg&bridge=13in&gate=0in", "The bridge hand lies {bridge} from the ball and stays there. The tip is at the centre, the cue on the line."},
			{"elev=0deg&bridge=13in&gate=0in", "The back hand swings out: the tip comes to {side} of centre and the cue points {heading}. Squirt takes {squirt} of that back, and the ball leaves {launch}."},
			{"elev=0deg&bridge=11.42in&gate=0in", "Off a bridge of {bridge} the cue points {heading}, squirt is {squirt}, and the ball leaves straight. That bridge is the cue's natural pivot length at this offset."},
			{"elev=0deg&bridge=11.42in&pivot=9.5in&gate=0in", "A cue that squirts more, {squirt}, needs more turn. Its natural pivot length is {pivot-natural}; off the same bridge the ball leaves {launch}."},
			{"elev=0deg&bridge=11.42in&pivot=19in&gate=0in", "One that squirts less, {squirt}, needs less. Its natural pivot length is {pivot-natural}; off the same bridge the ball leaves {launch}."},
			{"elev=0deg&bridge=16in&pivot=9.5in&gate=0in", "The cue that squirts more again, off a long bridge: the ball leaves {launch}."},
		},
		Question: Question{"Where must the bridge hand lie for the ball to leave straight? Drag it.", "bridge", Launches},
	}},
	{"length", Lesson{
		Title: "Too short and too long",
		Steps: []Step{
			{"bridge=12.5in", "Right english by the back hand alone, and two blockers {gate} away. Off a bridge of {bridge} the ball passes clean and arrives {arrival}."},
			{"bridge=7in", "Too short: the cue turns {heading}, and squirt takes only {squirt} of it back. The ball arrives {arrival}, on the side of the english."},
			{"bridge=20in", "Too long: the cue turns {heading}, and squirt is {squirt}. The ball arrives {arrival}, away from the english."},
			{"bridge=20in&side=-0.4", "Left english turns it all round. Too long: the ball arrives {arrival}."},
			{"bridge=7in&side=-0.4", "Too short: {arrival}. So with the back hand alone, and the cue aimed at the target before it pivots, a miss on the side of the english asks for a longer bridge and a miss on the other side for a shorter one. A poor aim misses too, but to the same side with either english."},
			{"bridge=6in&gap=2.6in", "Tuesday's test: right english again, and the blockers leave {gap}. Off {bridge} the ball arrives {arrival}."},
		},
		Question: Question{"How far back must the bridge hand go for the ball to pass clean? Drag it.", "bridge", Passes},
	}},
	{"swerve", Lesson{
		Title: "Swerve takes some back",
		Steps: []Step{
			{"back=0&elev=0deg&gate=0in", "A level cue, parallel to the aim line. The ball squirts {squirt} and runs straight on: it arrives {arrival}."},
			{"back=0&elev=5deg&gate=0in", "Raise the butt to {elev}, as in most strokes it is a little. Now the spin rubs sideways on the cloth and the path bends: swerve is {swerve}, and the ball arrives {arrival}."},
			{"back=0&elev=10deg&gate=0in", "Raise it to {elev}. Swerve is {swerve}, and the ball arrives {arrival}."},
			{"back=0&elev=5deg&speed=3.5mph&gate=0in", "Lower again, and softer: {speed}. There is more time to bend on the way. Swerve is {swerve}, and the ball arrives {arrival}."},
			{"back=0&elev=5deg&speed=14mph&gate=0in", "Hard, {speed}: the ball is there before it has bent far. Swerve is {swerve}, and the ball arrives {arrival}."},
			{"back=0&elev=2deg&speed=4mph&dist=48in&gate=0in", "A soft shot, {speed}, to a target {dist} away, still parallel. It arrives {arrival}."},
		},
		Question: Question{"How far must the butt be raised for swerve to take all of the squirt back? Drag the elevation.", "elev", Arrives},
	}},
	{"hands", Lesson{
		Title: "Back hand and front hand",
		Steps: []Step{
			{"bridge=8in", "A short bridge, {bridge}, and the back hand alone. The cue turns {heading}, which is too much: the ball arrives {arrival}."},
			{"bridge=8in&back=0&front=1", "The front hand alone, about the grip {grip} behind it. The cue turns {heading}, which is too little: the ball arrives {arrival}."},
			{"bridge=8in&back=0.5&front=0.5", "Half by each hand. The cue turns {heading}, and the ball arrives {arrival}."},
			{"bridge=20in", "A long bridge, {bridge}. Here even the back hand alone turns the cue too little, {heading}: the ball arrives {arrival}."},
			{"bridge=20in&back=1.8&front=-0.8", "So the back hand goes past, to {back}, and the front hand brings the cue back, {front}. The cue turns {heading}, and the ball arrives {arrival}."},
			{"bridge=9in&speed=9mph", "A bridge of {bridge} that can't move, and a firm shot, {speed}. The back hand alone: {arrival}."},
		},
		Question: Question{"Which share for the back hand, the front hand doing the rest, sends the ball down the line?", "back", Arrives},
	}},
	{"aim", Lesson{
		Title: "Throw, and the whole aim",
		Steps: []Step{
			{"side=0&object=20in&gate=0in", "An object ball straight ahead and a pocket {object} behind it. Hit in the middle, it goes along the line: throw is {throw}."},
			{"object=20in&back=0.888&front=0.112&gate=0in", "Right english, aimed so that the cue ball still arrives {arrival}. As the balls meet, the spin drags the object ball along: it is thrown {throw}."},
			{"object=20in&speed=3mph&elev=0deg&back=1.07&front=-0.07&gate=0in", "Slow balls rub harder. At {speed}, with the cue ball {arrival}, throw is {throw}."},
			{"object=20in&cut=25deg&side=0&gate=0in", "A cut needs no english to be thrown: at {cut} the balls rub as they part, and throw is {throw}, against the cut."},
			{"object=20in&cut=25deg&side=-0.4&back=0.888&front=0.112&gate=0in", "English on the outside of the cut, {side}, rubs the other way: throw is {throw}."},
			{"object=30in&dist=30in&speed=5mph&bridge=10in&gate=0in", "All of it at once: right english off a bridge of {bridge}, at {speed}. The cue ball arrives {arrival}, and would throw the object ball {throw}."},
		},
		Question: Question{"Which share for the back hand, the front hand doing the rest, drops the object ball?", "back", Pots},
	}},
}
