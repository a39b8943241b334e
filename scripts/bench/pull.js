// Drags the handles of the sheet in the canvas's frame: a press, a move to one
// side and a release each, 20 of them in each animation frame. This is the body
// of a function; its arguments are the number of drags and the function to call
// when done.
const [drags, done] = arguments;

// Pointer capture fails here, since the events are not those of a real pointer.
Element.prototype.setPointerCapture = () => {};

const BATCH = 20;
let made = 0;

function drag() {
  const handles = document.querySelectorAll('.handle');
  const handle = handles[made % handles.length];
  const box = handle.getBoundingClientRect();
  const x = box.left + box.width / 2;
  const y = box.top + box.height / 2;
  const by = made % (2 * handles.length) < handles.length ? 6 : -6; // one way, and back the next time
  const send = (type, dx) => handle.dispatchEvent(new PointerEvent(type, {
    bubbles: true, cancelable: true, pointerId: 1, isPrimary: true, button: 0, buttons: 1, clientX: x + dx, clientY: y + dx,
  }));
  send('pointerdown', 0);
  send('pointermove', by);
  send('pointerup', by);
  made++;
}

function batch() {
  for (let i = 0; i < BATCH && made < drags; i++) drag();
  if (made < drags) parent.requestAnimationFrame(batch);
  else setTimeout(done, 300); // for the work after a drag
}
batch();
