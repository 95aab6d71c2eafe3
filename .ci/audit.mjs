// Fails when a package of the lock file has a known advisory of level high or critical. Where the registry offers no audit, or cannot be
// reached, a line says that nothing was checked.
import { spawnSync } from 'node:child_process';

const FAILING = ['high', 'critical'];

/** Answers of a registry that has no audit, or has none just now. */
const NOT_OFFERED = [404, 405, 501, 502, 503, 504];
const UNREACHABLE = /\b(ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ENETUNREACH|EHOSTUNREACH|ETIMEDOUT|timeout)\b/;

const { stdout, error } = spawnSync('npm', ['audit', '--json', `--audit-level=${FAILING[0]}`], {
  encoding: 'utf8',
  maxBuffer: 1 << 28,
});
if (error) end(1, `npm audit did not run: ${error.message}`);

const answer = parsed(stdout);
const found = answer?.vulnerabilities;
if (found !== undefined && answer.metadata !== undefined) {
  const serious = Object.values(found).filter((v) => FAILING.includes(v.severity));
  const titles = ({ via }) =>
    [...new Set(via.map((v) => (typeof v === 'string' ? `by way of ${v}` : v.title)))].join('; ');
  for (const v of serious) console.error(`${v.severity}: ${v.name} ${v.range}: ${titles(v)}`);
  if (serious.length > 0) end(1, `ADVISORIES: ${serious.length} of level high or critical`);
  end(0, `Advisories: none of level high or critical in ${answer.metadata.dependencies?.total ?? 'all'} packages.`);
}
const why = String(answer?.message ?? answer?.error?.summary ?? 'no answer that could be read').split('\n')[0];
if (NOT_OFFERED.includes(answer?.statusCode) || UNREACHABLE.test(why)) {
  end(0, `NOT CHECKED for advisories: the registry offers no audit here (${why}).`);
}
end(1, `npm audit failed: ${why}`);

function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function end(code, line) {
  console.log(line);
  process.exit(code);
}
