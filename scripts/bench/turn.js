// Opens the page's sections one after the other, each for long enough to show
// what it shows. The body of a function: how many times, then the function
// to call when done.
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
