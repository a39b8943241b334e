// Opens a film in the Measure section and reads its first stroke. Answers with the ms from the
// button to the result.
const [film, done] = arguments;
const bytes = Uint8Array.from(atob(film), (c) => c.charCodeAt(0));
const find = (selector) => document.querySelector(selector);
function until(met, then) {
	new MutationObserver((_, watch) => {
		if (!met()) return;
		watch.disconnect();
		then();
	}).observe(find('#film'), { subtree: true, childList: true, attributes: true, characterData: true });
}
find('.tabs [data-section="measure"]').click();
find('#film').open = true;
const files = new DataTransfer();
files.items.add(new File([bytes], 'large.mp4', { type: 'video/mp4' }));
const input = find('input[data-file="film"]:not([capture])');
input.files = files.files;
const read = find('[data-do="film-read"]');
until(() => !find('#film-fields').hidden && !read.disabled, () => {
	const begun = performance.now();
	until(() => find('#film-result').textContent, () => done(performance.now() - begun));
	read.click();
});
input.dispatchEvent(new Event('change', { bubbles: true }));
