// What makes a page live; each part does nothing where its matter is not on the page.
import { followJobs } from "./jobs.js";
import { startAsking } from "./asking.js";
import { startCharts } from "./charts.js";
import { startLive } from "./live.js";
import { unfoldTarget } from "./fold.js";

const form = document.getElementById("entries");
if (form) startLive(form);
followJobs();
startAsking(document.getElementById("ask"));
startCharts();
unfoldTarget();
addEventListener("hashchange", unfoldTarget);
