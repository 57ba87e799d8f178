// Plan a job with fetch, in a browser or in Node 18 or later. As a program: node fetch.js JOB.json [ADDRESS]
// A page served by another host than the service needs the service to be put behind the same host, as usual.

/** Ask the service for a view of a job; throws a JobProblem where it answers with a problem (RFC 9457). */
export async function ask(service, view, job) {
  const answer = await fetch(`${service}/v1/${view}`, {
    method: "POST",
    headers: { "Content-Type": "application/json", Accept: "application/json" },
    body: JSON.stringify(job),
  });
  const held = await answer.json();
  if (!answer.ok) throw new JobProblem(held);
  return held;
}

/** A problem: `errors` names each place in the job, the rule, what was got and what to do. */
export class JobProblem extends Error {
  constructor(problem) {
    super([problem.detail, ...problem.errors.map((one) => `${one.pointer}: ${one.rule}; got ${one.got}. ${one.fix}`)].join("\n"));
    this.status = problem.status;
    this.errors = problem.errors;
  }
}

/** The cut list as lines of text, and whether a check says stop. */
export async function cutList(service, job) {
  const plan = await ask(service, "plan", job);
  const lines = plan.parts.map((part) => `${part.quantity} × ${part.id}: ${part.text.length} × ${part.text.width} × ${part.text.thickness}, ${part.material}`);
  return { lines, stops: plan.checks.filter((check) => check.level === "stop") };
}

if (typeof process !== "undefined" && process.argv[1]?.endsWith("fetch.js")) {
  const { readFile } = await import("node:fs/promises");
  const [, , path, service = "http://127.0.0.1:8000"] = process.argv;
  try {
    const { lines, stops } = await cutList(service, JSON.parse(await readFile(path, "utf8")));
    console.log(lines.join("\n"));
    for (const stop of stops) console.log(`DO NOT CUT. ${stop.subject}: ${stop.message}`);
  } catch (error) {
    console.error(error.message);
    process.exitCode = 1;
  }
}
