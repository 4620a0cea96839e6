// Follows work that runs elsewhere; the page is shown anew when it has ended.
const EVERY = 500;

export const ENDED = ["done", "faulty", "broken", "cancelled"];

export async function lookAt(key, signal) {
  const answer = await fetch(`/jobs/${key}`, { signal });
  if (!answer.ok) throw new Error("the work is not known");
  return answer.json();
}

export const pause = (milliseconds) => new Promise((done) => setTimeout(done, milliseconds));

export function followJobs() {
  for (const place of document.querySelectorAll(".job[data-job]")) {
    if (!ENDED.includes(place.dataset.state)) follow(place);
  }
}

async function follow(place) {
  for (;;) {
    await pause(EVERY);
    let job;
    try {
      job = await lookAt(place.dataset.job);
    } catch {
      continue; // the connection may come back
    }
    if (ENDED.includes(job.state)) return location.reload();
    place.querySelector(".doing").textContent = job.doing;
    if (job.share !== null) place.querySelector("progress").value = job.share;
  }
}
