/**
 * Air and vapour around a vat: what a square metre of open milk, lid or wall gives off to the room.
 * Natural convection on density differences (vapour is light, so moist air over milk rises by itself), evaporation
 * by the analogy of heat and mass transfer with a measured ceiling, radiation as a grey body. Left out: draughts.
 */
import { evaporationHeatKJPerKg, saturationPressurePa } from './properties.ts';

const PRESSURE_PA = 101_325; // standard atmosphere
const GAS_CONSTANT = 8.314; // J/(mol K)
const AIR_KG_PER_MOL = 0.028_964; // dry air, standard tables
const VAPOUR_KG_PER_MOL = 0.018_015; // water, standard tables
const GRAVITY = 9.81; // m/s2
const STEFAN_BOLTZMANN = 5.670_374e-8; // W/(m2 K4)
const AIR_SPECIFIC_HEAT = 1007; // J/(kg K), from memory
const LEWIS = 0.857; // heat over vapour diffusivity in air, from memory
const WATER_EMISSIVITY = 0.95; // open milk or water, from memory
const EVAPORATION_CEILING_W_PER_M2_KPA = 108; // our own fit to the open-tank table that `published/heat.csv` quotes

const kelvin = (temperatureC: number): number => temperatureC + 273.15;

/** Air at a mean temperature: kinematic viscosity [m2/s], conductivity [W/(m K)], Prandtl number, density [kg/m3]. */
interface Air {
  readonly viscosityM2PerS: number;
  readonly conductivityWPerMK: number;
  readonly prandtl: number;
  readonly densityKgPerM3: number;
}

function airAt(temperatureC: number): Air {
  const t = kelvin(temperatureC);
  const density = 353 / t; // ideal gas at one atmosphere
  const dynamic = (1.458e-6 * t ** 1.5) / (t + 110.4); // Sutherland, from memory
  const conductivity = 0.0241 + 7.4e-5 * temperatureC; // linear fit, from memory
  return {
    viscosityM2PerS: dynamic / density,
    conductivityWPerMK: conductivity,
    prandtl: (dynamic * AIR_SPECIFIC_HEAT) / conductivity,
    densityKgPerM3: density,
  };
}

const moistDensity = (temperatureC: number, vapourPa: number): number =>
  ((PRESSURE_PA - vapourPa) * AIR_KG_PER_MOL + vapourPa * VAPOUR_KG_PER_MOL) / (GAS_CONSTANT * kelvin(temperatureC));

export interface RoomAir {
  readonly roomC: number;
  readonly relativeHumidityPercent: number;
}

/** Transfer from a flat upper surface [W/(m2 K)], L = a quarter of the diameter; heavy air above it lies still. */
function flatTransfer(input: {
  readonly surfaceC: number;
  readonly surfaceVapourPa: number;
  readonly roomC: number;
  readonly roomVapourPa: number;
  readonly diameterM: number;
}): number {
  const air = airAt((input.surfaceC + input.roomC) / 2);
  const outer = moistDensity(input.roomC, input.roomVapourPa);
  const inner = moistDensity(input.surfaceC, input.surfaceVapourPa);
  const length = input.diameterM / 4;
  const lightness = (2 * (outer - inner)) / (outer + inner);
  const rayleigh =
    ((GRAVITY * Math.abs(lightness) * length ** 3) / (air.viscosityM2PerS * air.viscosityM2PerS)) * air.prandtl;
  // McAdams's plate rules, from memory: 0.54 and 0.15 for rising air, 0.27 where the air over it is the heavier.
  const nusselt =
    lightness < 0 ? 0.27 * rayleigh ** 0.25 : rayleigh < 1e7 ? 0.54 * rayleigh ** 0.25 : 0.15 * Math.cbrt(rayleigh);
  return (nusselt * air.conductivityWPerMK) / length;
}

const radiation = (emissivity: number, surfaceC: number, roomC: number): number =>
  emissivity * STEFAN_BOLTZMANN * (kelvin(surfaceC) ** 4 - kelvin(roomC) ** 4);

/** Heat given off by open milk or water [W/m2], in its three parts. */
export interface SurfaceLoss {
  readonly evaporationWPerM2: number;
  readonly convectionWPerM2: number;
  readonly radiationWPerM2: number;
}

/**
 * Loss of an open surface in still air: evaporation, convection and radiation.
 *
 * Evaporation = min(film theory, 108 W/m2 per kPa of vapour pressure difference); the film's mass transfer is
 * h_m = h_c / (rho cp Le^(2/3)). Pure film theory overshoots by 30 to 75 % above 70 °C.
 *
 * @param input.surfaceC  of the milk [°C], 0 to 100
 * @param input.roomC  [°C], 0 to 60
 * @param input.relativeHumidityPercent  of the room [%], 0 to 100
 * @param input.diameterM  of the surface [m]
 * @returns three fluxes [W/m2], negative where the surface gains heat
 * Valid: still air, 0.1 to 3 m. Uncertainty: 6 % mean, 20 % at 32 °C against a published tank table; draughts can double it.
 * @source engineering table of open water tanks (page seen; calls itself rough); film theory from memory
 */
export function openSurfaceLoss(
  input: RoomAir & { readonly surfaceC: number; readonly diameterM: number },
): SurfaceLoss {
  const { surfaceC, roomC, diameterM } = input;
  const surfaceVapourPa = saturationPressurePa(surfaceC);
  const roomVapourPa = (input.relativeHumidityPercent / 100) * saturationPressurePa(roomC);
  const transfer = flatTransfer({ surfaceC, surfaceVapourPa, roomC, roomVapourPa, diameterM });
  const air = airAt((surfaceC + roomC) / 2);
  const massTransfer = transfer / (air.densityKgPerM3 * AIR_SPECIFIC_HEAT * LEWIS ** (2 / 3));
  const vapourDensity = (vapourPa: number, temperatureC: number): number =>
    (vapourPa * VAPOUR_KG_PER_MOL) / (GAS_CONSTANT * kelvin(temperatureC));
  // Stefan's factor: vapour leaving drags the air film with it.
  const stefan = PRESSURE_PA / (PRESSURE_PA - (surfaceVapourPa + roomVapourPa) / 2);
  const film =
    massTransfer *
    (vapourDensity(surfaceVapourPa, surfaceC) - vapourDensity(roomVapourPa, roomC)) *
    stefan *
    evaporationHeatKJPerKg(surfaceC) *
    1000;
  const ceiling = (EVAPORATION_CEILING_W_PER_M2_KPA * (surfaceVapourPa - roomVapourPa)) / 1000;
  return {
    evaporationWPerM2: Math.min(film, ceiling),
    convectionWPerM2: transfer * (surfaceC - roomC),
    radiationWPerM2: radiation(WATER_EMISSIVITY, surfaceC, roomC),
  };
}

/** Loss of a dry flat top, such as a lid [W/m2]. */
export function lidLossWPerM2(input: {
  readonly lidC: number;
  readonly roomC: number;
  readonly diameterM: number;
  readonly emissivity: number;
}): number {
  const { lidC, roomC, diameterM, emissivity } = input;
  const transfer = flatTransfer({ surfaceC: lidC, surfaceVapourPa: 0, roomC, roomVapourPa: 0, diameterM });
  return transfer * (lidC - roomC) + radiation(emissivity, lidC, roomC);
}

/**
 * Nusselt number of natural convection on an upright plate, any length.
 *
 * Nu = [0.825 + 0.387 Ra^(1/6) / (1 + (0.492/Pr)^(9/16))^(8/27)]^2.
 *
 * @param input.rayleigh  Grashof times Prandtl [-], 0.1 to 1e12
 * @param input.prandtl  [-]
 * @returns Nusselt number [-]
 * Valid: 0.1 to 1e12. Uncertainty: about 10 % (from memory).
 * @source Churchill and Chu (1975), as coded and checked with Bergman et al. (2011), example 9.2 (seen at second hand)
 */
export function uprightPlateNusselt(input: { readonly rayleigh: number; readonly prandtl: number }): number {
  const damping = (1 + (0.492 / input.prandtl) ** (9 / 16)) ** (8 / 27);
  return (0.825 + (0.387 * input.rayleigh ** (1 / 6)) / damping) ** 2;
}

/**
 * Loss of an upright wall in still air: convection and radiation.
 * @param input.wallC  outside of the wall [°C]
 * @param input.heightM  wetted height [m]
 * @param input.emissivity  of the outside [-], 0 to 1
 * @returns flux [W/m2]
 * Valid: still air. Uncertainty: 2 % mean against the same tank table's bare walls.
 * @source Churchill and Chu (1975), as `uprightPlateNusselt`
 */
export function wallLossWPerM2(input: {
  readonly wallC: number;
  readonly roomC: number;
  readonly heightM: number;
  readonly emissivity: number;
}): number {
  const { wallC, roomC, heightM, emissivity } = input;
  const air = airAt((wallC + roomC) / 2);
  const expansion = 1 / kelvin((wallC + roomC) / 2);
  const rayleigh =
    ((GRAVITY * expansion * Math.abs(wallC - roomC) * heightM ** 3) / air.viscosityM2PerS ** 2) * air.prandtl;
  const nusselt = uprightPlateNusselt({ rayleigh, prandtl: air.prandtl });
  return ((nusselt * air.conductivityWPerMK) / heightM) * (wallC - roomC) + radiation(emissivity, wallC, roomC);
}
