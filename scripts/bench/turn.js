// Opens the page's sections one after the other, each for long enough to render.
// This is the body of a function; its arguments are the number of sections to
// open and the function to call when done.
const [times, done] = arguments;
const tabs = [...document.querySelectorAll('.tabs [data-section]')];
let opened = 0;
function next() {
  if (opened === times) {
    tabs[0].click();
    setTimeout(done, 300);
    return;
  }
  tabs[++opened % tabs.length].click();
  setTimeout(next, 200);
}
next();
