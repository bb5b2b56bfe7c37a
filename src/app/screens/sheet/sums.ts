import { checkRecord } from "../../../records/check.js";
import type { Vehicle } from "../../../records/index.js";
import { stringChecksOf } from "../../../records/map/panel-volts.js";
import type { Problem } from "../../../units/outcome.js";
import { book, listed, roundOf, vehicles, yardOf } from "../../fleet.js";
import { clock, figures, joined } from "../../words/format.js";
import { sheetWords } from "../../words/sheet.js";
import type { GroupName } from "./fields.js";

const dec = (value: number): string => figures(value, Number.isInteger(value) ? 0 : 1);

/** What stands in a group, in one line. */
export function groupSum(vehicle: Vehicle, group: GroupName): string {
  const words = sheetWords.now();
  const { sums, choices } = words;
  const { battery, drive, charger, roof, usual, gauge, accessories } = vehicle;
  switch (group) {
    case "plate":
      return joined(vehicle.plate, vehicle.name);
    case "body":
      return sums.body(figures(vehicle.kerbKg), figures(vehicle.fullLoadKg));
    case "drive":
      return sums.drive(figures(drive.motorRatedW / 1000, 1), drive.gears.length);
    case "set":
      return joined(choices[battery.chemistry], sums.set(dec(battery.nominalV), dec(battery.ratedAh)));
    case "charger":
      return joined(sums.charger(figures(charger.ratedW)), charger.plug);
    case "roof":
      return roof.faces.length === 0
        ? sums.noRoof
        : sums.roof(figures(roof.faces.reduce((sum, face) => sum + face.ratedW, 0)), roof.faces.length);
    case "extras":
      return sums.extras(figures(accessories.baseW));
    case "gauge":
      return gauge.kind === "bars" && gauge.bars !== null
        ? `${choices.bars}: ${figures(gauge.bars)}`
        : choices[gauge.kind];
    case "usual": {
      const round = roundOf(usual.roundId);
      return joined(sums.usual(round?.name ?? sums.noRound, clock(usual.leaveMinute / 60)), choices[usual.loadClass]);
    }
    case "line":
      return sums.line(figures(battery.reserveShare * 100));
  }
}

/** What is odd about the vehicle: its own rules, its panels on a cold morning or a hot noon, its number painted twice. */
export function warningsOf(vehicle: Vehicle): Problem[] {
  const yard = yardOf(vehicle);
  const strings = yard ? stringChecksOf(vehicle, yard) : [];
  const outside = strings
    .filter((check) => check.coldOk === false || check.hotOk === false)
    .map((check): Problem => ({ code: "panelVolts", where: `roof.faces.${check.faces[0] ?? 0}.openCircuitV` }));
  return [
    ...checkRecord("vehicle", vehicle).warnings,
    ...outside,
    ...(doubled(vehicle, vehicle.plate) ? [twice(vehicle.plate)] : []),
    ...(fitsNoSocket(vehicle) ? [{ code: "noSocketForPlug", where: "charger.plug" }] : []),
  ];
}

/** A yard without any socket charges elsewhere. */
function fitsNoSocket(vehicle: Vehicle): boolean {
  const sockets = listed(book.value, "socket").filter((socket) => socket.yardId === vehicle.yardId);
  return sockets.length > 0 && !sockets.some((socket) => socket.plug === vehicle.charger.plug);
}

const twice = (plate: string): Problem => ({ code: "doublePlate", where: "plate", figures: { found: plate } });
const plainPlate = (plate: string): string => plate.toUpperCase().replace(/[\s.-]/g, "");

/** Whether another vehicle of the yard bears a number; people read `KA 1` and `ka-1` as one. */
export const doubled = (vehicle: Vehicle, plate: string): boolean =>
  vehicles.value.some(
    (other) =>
      other.id !== vehicle.id && other.yardId === vehicle.yardId && plainPlate(other.plate) === plainPlate(plate),
  );

/** Whether a number that was typed is the one painted on the vehicle. */
export const isPlate = (vehicle: Vehicle, typed: string): boolean =>
  plainPlate(typed) !== "" && plainPlate(typed) === plainPlate(vehicle.plate);
