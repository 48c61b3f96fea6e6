// Prints UID and day of every occurrence of a calendar up to a day, as ical.js reads it.
// node expand.mjs PATH-OF-ICAL.JS CALENDAR.ics UNTIL
import { readFileSync } from "node:fs";

const [, , library, file, until] = process.argv;
const { default: ICAL } = await import(library);
const calendar = new ICAL.Component(ICAL.parse(readFileSync(file, "utf8")));
for (const part of calendar.getAllSubcomponents("vevent")) {
  const event = new ICAL.Event(part);
  // DTSTART is the first of the set (RFC 5545, 3.8.5.3); the iterator leaves it out beside RDATE.
  console.log(event.uid, event.startDate.toString());
  const days = event.iterator();
  for (let day = days.next(); day && day.toString() <= until; day = days.next()) {
    console.log(event.uid, day.toString());
  }
}
