// Moves the bridge slider by one step in each animation frame and measures how
// long the reading and the canvas take to follow each event. This is the body of
// an async script; its arguments are the number of steps and the function to
// call with the result.
const [steps, done] = arguments;
const slider = document.querySelector('input[type=range][data-set=bridge]');
const reading = document.querySelector('[data-reading=heading]');
const canvas = document.getElementById('table').contentWindow;

const sent = []; // when each event was dispatched
const read = []; // ms from the event until its reading
const drawn = []; // ms from the event until the frame that shows it
let received = 0; // scenes that the canvas has received
let shown = 0; // scenes that a frame has shown
let frames = 0;

new MutationObserver(() => {
  read.push(performance.now() - sent.at(-1));
}).observe(reading, { attributeFilter: ['data-value'] });

// Each event makes one scene, and scenes arrive in order. A frame shows the last
// one received.
canvas.addEventListener('message', (event) => {
  if (event.data && event.data.scene) received++;
});
let count = canvas.framesDrawn;
Object.defineProperty(canvas, 'framesDrawn', {
  get: () => count,
  set(n) {
    count = n;
    frames++;
    const now = performance.now();
    for (; shown < Math.min(received, sent.length); shown++) drawn.push(now - sent[shown]);
  },
});

let up = true;
function step() {
  if (sent.length === steps) {
    setTimeout(() => done({ Read: read, Drawn: drawn, Frames: frames }), 500); // the last frame
    return;
  }
  const before = slider.value;
  if (up) slider.stepUp();
  else slider.stepDown();
  if (slider.value === before) {
    up = !up;
    return step();
  }
  sent.push(performance.now());
  slider.dispatchEvent(new Event('input', { bubbles: true }));
  requestAnimationFrame(step);
}
requestAnimationFrame(step);
