// Shows how far long work is while it goes on; the page itself, loaded again, shows what came of it.

const place = document.getElementById("progress");
const bar = document.getElementById("bar"), what = document.getElementById("what"), figures = document.getElementById("figures");
const events = new EventSource(place.dataset.events);

events.onmessage = event => {
  const told = JSON.parse(event.data);
  if (["done", "failed", "stopped"].includes(told.state)) {
    events.close();
    location.reload();
    return;
  }
  if (told.what) what.textContent = told.what;
  if (told.total) {
    bar.max = told.total;
    bar.value = Math.min(told.done, told.total);
    figures.textContent = `${told.done} of ${told.total}`;
  }
};
