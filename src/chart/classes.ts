/** What the library does with the features of a class. */
export type ClassUse =
  | "skin"
  | "depth"
  | "contour"
  | "sounding"
  | "shore"
  | "hazard"
  | "mark"
  | "seabed"
  | "coverage"
  | "quality"
  | "datum"
  | "anchoring";

/** One class of chart objects. */
export interface ObjectClass {
  /** Six-letter acronym. */
  readonly acronym: string;
  /** Code of the class (OBJL). */
  readonly objl: number;
  /** Name of the class. */
  readonly name: string;
  /** What its features are used for; empty where they are not. */
  readonly uses: readonly ClassUse[];
}

// acronym | OBJL | name | uses
const ROWS = `
ACHARE | 4 | Anchorage area | anchoring
ACHBRT | 3 | Anchor berth | anchoring
ADMARE | 1 | Administration area (Named) |
BCNCAR | 5 | Beacon, cardinal | hazard mark
BCNISD | 6 | Beacon, isolated danger | hazard mark
BCNLAT | 7 | Beacon, lateral | hazard mark
BCNSAW | 8 | Beacon, safe water | hazard mark
BCNSPP | 9 | Beacon, special purpose/general | hazard mark
BERTHS | 10 | Berth |
BOYCAR | 14 | Buoy, cardinal | hazard mark
BOYINB | 15 | Buoy, installation | hazard mark
BOYISD | 16 | Buoy, isolated danger | hazard mark
BOYLAT | 17 | Buoy, lateral | hazard mark
BOYSAW | 18 | Buoy, safe water | hazard mark
BOYSPP | 19 | Buoy, special purpose/general | hazard mark
BRIDGE | 11 | Bridge | hazard anchoring
CANALS | 23 | Canal | anchoring
CAUSWY | 26 | Causeway | hazard
CBLARE | 20 | Cable area | anchoring
CBLOHD | 21 | Cable, overhead | anchoring
CBLSUB | 22 | Cable, submarine | anchoring
COALNE | 30 | Coastline | shore
CTNARE | 27 | Caution area | hazard anchoring
CTSARE | 25 | Cargo transshipment area | anchoring
C_AGGR | 400 | Aggregation |
C_ASSO | 401 | Association |
DAMCON | 38 | Dam | hazard
DAYMAR | 39 | Daymark | mark
DEPARE | 42 | Depth area | skin depth
DEPCNT | 43 | Depth contour | contour
DMPGRD | 48 | Dumping ground | anchoring
DOCARE | 45 | Dock area |
DRGARE | 46 | Dredged area | skin depth anchoring
DWRTCL | 40 | Deep water route centreline | anchoring
DWRTPT | 41 | Deep water route part | anchoring
DYKCON | 49 | Dyke | hazard
FAIRWY | 51 | Fairway | anchoring
FERYRT | 53 | Ferry route | anchoring
FLODOC | 57 | Floating dock | skin hazard anchoring
FSHFAC | 55 | Fishing facility | hazard anchoring
FSHGRD | 56 | Fishing ground |
GATCON | 61 | Gate | hazard anchoring
GRIDRN | 62 | Gridiron | hazard
HRBARE | 63 | Harbour area (administrative) |
HRBFAC | 64 | Harbour facility |
HULKES | 65 | Hulk | skin hazard anchoring
ICEARE | 66 | Ice area | anchoring
ISTZNE | 68 | Inshore traffic zone | anchoring
LAKARE | 69 | Lake |
LIGHTS | 75 | Light | mark
LITFLT | 76 | Light float | hazard mark
LITVES | 77 | Light vessel | hazard mark
LNDARE | 71 | Land area | skin shore anchoring
LNDMRK | 74 | Landmark | mark
LNDRGN | 73 | Land region |
LOCMAG | 78 | Local magnetic anomaly |
LOGPON | 80 | Log pond | hazard anchoring
LOKBSN | 79 | Lock basin | anchoring
MAGVAR | 81 | Magnetic variation |
MARCUL | 82 | Marine farm/culture | hazard anchoring
MIPARE | 83 | Military practice area | anchoring
MORFAC | 84 | Mooring/warping facility | hazard anchoring
M_ACCY | 300 | Accuracy of data
M_COVR | 302 | Coverage | coverage
M_CSCL | 301 | Compilation scale of data
M_HDAT | 303 | Horizontal datum of data |
M_HOPA | 304 | Horizontal datum shift parameters |
M_NPUB | 305 | Nautical publication information |
M_NSYS | 306 | Navigational system of marks |
M_QUAL | 308 | Quality of data | quality
M_SDAT | 309 | Sounding datum | datum
M_SREL | 310 | Survey reliability |
M_UNIT | 311 | Units of measurement of data |
M_VDAT | 312 | Vertical datum of data |
OBSTRN | 86 | Obstruction | hazard anchoring
OFSPLF | 87 | Offshore platform | hazard anchoring
OILBAR | 89 | Oil barrier | hazard anchoring
OSPARE | 88 | Offshore production area | anchoring
PILBOP | 91 | Pilot boarding place | anchoring
PILPNT | 90 | Pile | hazard
PIPARE | 92 | Pipeline area | anchoring
PIPOHD | 93 | Pipeline, overhead | anchoring
PIPSOL | 94 | Pipeline, submarine/on land | anchoring
PONTON | 95 | Pontoon | skin hazard anchoring
PRCARE | 96 | Precautionary area | anchoring
PYLONS | 98 | Pylon/bridge support | hazard
RCRTCL | 108 | Recommended route centreline | anchoring
RCTLPT | 110 | Recommended traffic lane part | anchoring
RECTRC | 109 | Recommended track | anchoring
RESARE | 112 | Restricted area | anchoring
RIVERS | 114 | River |
SBDARE | 121 | Seabed area | seabed
SEAARE | 119 | Sea area / named water area |
SLCONS | 122 | Shoreline Construction | shore hazard
SMCFAC | 128 | Small craft facility |
SNDWAV | 118 | Sand waves | seabed anchoring
SOUNDG | 129 | Sounding | sounding
SPLARE | 120 | Sea-plane landing area | anchoring
SPRING | 130 | Spring | seabed anchoring
SUBTLN | 133 | Submarine transit lane | anchoring
SWPARE | 134 | Swept Area |
TSELNE | 145 | Traffic Separation Line | anchoring
TSEZNE | 150 | Traffic Separation Zone | anchoring
TSSBND | 146 | Traffic Separation Scheme Boundary | anchoring
TSSCRS | 147 | Traffic Separation Scheme Crossing | anchoring
TSSLPT | 148 | Traffic Separation Scheme Lane part | anchoring
TSSRON | 149 | Traffic Separation Scheme Roundabout | anchoring
TS_FEB | 160 | Tidal stream - flood/ebb |
TS_PAD | 138 | Tidal stream panel data |
TS_PNH | 137 | Tidal stream - non-harmonic prediction |
TS_PRH | 136 | Tidal stream - harmonic prediction |
TS_TIS | 139 | Tidal stream - time series |
TUNNEL | 151 | Tunnel | anchoring
TWRTPT | 152 | Two-way route part | anchoring
T_HMON | 140 | Tide - harmonic prediction |
T_NHMN | 141 | Tide - non-harmonic prediction |
T_TIMS | 142 | Tidal stream - time series |
UNSARE | 154 | Unsurveyed area | skin anchoring
UWTROC | 153 | Underwater rock / awash rock | hazard
WATTUR | 156 | Water turbulence | hazard
WEDKLP | 158 | Weed/Kelp | seabed anchoring
WRECKS | 159 | Wreck | hazard anchoring
`;

/**
 * Chart object classes with a bearing on anchoring, and those met beside them.
 *
 * @source IHO S-57 edition 3.1 (2000) object catalogue as carried by GDAL 3.6.2, s57objectclasses.csv (its rows of 2010 for DWRTCL, DYKCON, GRIDRN, PILBOP, PIPOHD, PYLONS, RCRTCL, RCTLPT and SUBTLN); DAYMAR, LITFLT, LITVES, LNDMRK, M_HDAT and M_UNIT from memory
 */
export const objectClasses: readonly ObjectClass[] = /* @__PURE__ */ ROWS.trim()
  .split("\n")
  .map((line) => {
    const [acronym, objl, name, uses] = line.split("|").map((f) => f.trim());
    return {
      acronym: acronym!,
      objl: Number(objl),
      name: name!,
      uses: (uses ?? "").split(" ").filter((u) => u !== "") as ClassUse[],
    };
  });

/** Classes of the catalogue, and of drawings of it, that say nothing of a place to anchor but by a restriction of their own. */
const WITHOUT_BEARING: ReadonlySet<string> = /* @__PURE__ */ new Set(
  (
    "AIRARE ARCSLN ASLXIS BUAARE BUISGL CANBNK CGUSTA CHKPNT CONVYR CONZNE COSARE CRANES CTRPNT CURENT CUSZNE C_STAC " +
    "DISMAR DRYDOC EXEZNE FNCLNE FOGSIG FORSTC FRPARE FSHZNE ICNARE LAKSHR LNDELV M_PROD NAVLNE PRDARE RADLNE RADRFL " +
    "RADRNG RADSTA RAILWY RDOCAL RDOSTA RETRFL RIVBNK ROADWY RSCSTA RTPBCN RUNWAY SILTNK SISTAT SISTAW SLOGRD SLOTOP " +
    "SQUARE STSLNE TESARE TIDEWY TOPMAR VEGATN $AREAS $COMPS $CSYMB $LINES $TEXTS"
  ).split(" "),
);

/**
 * Whether what a class says of a place is known here, though it be nothing.
 *
 * @source IHO S-57 edition 3.1 (2000) object catalogue as carried by GDAL, s57objectclasses.csv, up to code 86; the rest from memory
 */
export const isListed = (acronym: string): boolean =>
  CLASS_OF.has(acronym) || WITHOUT_BEARING.has(acronym);

/** Classes by acronym. */
export const CLASS_OF: ReadonlyMap<string, ObjectClass> = /* @__PURE__ */ new Map(
  objectClasses.map((c) => [c.acronym, c]),
);
/** Classes by OBJL. */
export const CLASS_OF_OBJL: ReadonlyMap<number, ObjectClass> = /* @__PURE__ */ new Map(
  objectClasses.map((c) => [c.objl, c]),
);
