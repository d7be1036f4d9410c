// What jsdom does not have and the page asks for: a screen that neither is dark nor wants less motion.
window.matchMedia = (media) => Object.assign(new EventTarget(), { matches: false, media, onchange: null, addListener() {}, removeListener() {} });
