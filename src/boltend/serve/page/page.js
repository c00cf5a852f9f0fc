"use strict";
// What the terminal's own script (textual.js) needs around it. It leaves its beginning in window.onload.
{
  const begin = window.onload;
  let stage = "";

  // The terminal's script tells by classes how far it is. What is not in sight yet can have no focus.
  const look = () => {
    const told = document.body.classList;
    const now = told.contains("-closed") ? "#again" : told.contains("-first-byte") ? ".xterm-helper-textarea" : "";
    if (now !== stage) {
      stage = now;
      document.querySelector(now).focus();
    }
  };

  window.onload = async (event) => {
    document.getElementById("again").addEventListener("click", () => window.location.reload());
    // The terminal measures a letter once, when it begins: the fonts must be there by then.
    const faces = ["16px 'Roboto Mono'", "bold 16px 'Roboto Mono'"];
    await Promise.allSettled(faces.map((face) => document.fonts.load(face, "W½█")));
    new MutationObserver(look).observe(document.body, { attributeFilter: ["class"] });
    begin(event);
  };

  // A file handed out is fetched by a link: a new window would be held back as a pop-up.
  const open = window.open.bind(window);
  window.open = (url, ...rest) => {
    if (url === undefined || !String(url).startsWith(window.location.origin + "/download/")) {
      return open(url, ...rest);
    }
    const link = document.createElement("a");
    link.href = url;
    link.download = "";
    document.body.append(link);
    link.click();
    link.remove();
    return null;
  };
}
