"use strict";
// One slide at a time, by keys or buttons. Without this script the page is one long column of slides.
const slides = [...document.querySelectorAll(".slide")];
const nav = document.querySelector("nav"), place = document.getElementById("place");
let current = 0;

function show(number) {
  current = Math.max(0, Math.min(slides.length - 1, number));
  slides.forEach((slide, index) => slide.classList.toggle("current", index === current));
  place.textContent = `${current + 1} / ${slides.length}`;
  slides[current].scrollTop = 0;
  slides[current].focus({ preventScroll: true });
  history.replaceState(null, "", `#${slides[current].id}`);
}

// Up and down first move about a slide that is taller than the window.
function scrolls(key) {
  const slide = slides[current], rest = slide.scrollHeight - slide.clientHeight;
  return (key === "ArrowDown" && slide.scrollTop < rest - 1) || (key === "ArrowUp" && slide.scrollTop > 0);
}

const moves = {
  ArrowRight: () => current + 1, ArrowDown: () => current + 1, PageDown: () => current + 1, " ": () => current + 1,
  ArrowLeft: () => current - 1, ArrowUp: () => current - 1, PageUp: () => current - 1,
  Home: () => 0, End: () => slides.length - 1,
};

function turnNotes() {
  const notes = slides[current].querySelector(".notes");
  if (notes) notes.open = !notes.open;
}

document.addEventListener("keydown", (event) => {
  const onButton = event.target.closest("button, summary") && event.key === " ";
  if (event.key.toLowerCase() === "n" && !event.ctrlKey && !event.altKey && !event.metaKey) turnNotes();
  if (!(event.key in moves) || event.ctrlKey || event.altKey || event.metaKey || onButton || scrolls(event.key)) return;
  event.preventDefault();
  show(moves[event.key]());
});
document.getElementById("back").addEventListener("click", () => show(current - 1));
document.getElementById("on").addEventListener("click", () => show(current + 1));
document.documentElement.classList.add("one-at-a-time");
nav.hidden = false;
show(slides.findIndex((slide) => `#${slide.id}` === location.hash));
