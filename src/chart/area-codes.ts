/** Restrictions, categories and status of areas, lines and hazards: an attribute (E one value, L list), then its values. `S-101` marks a value that S-57 edition 3.1 does not have. */
export const AREA_CODES = `
# RESTRN | L | Restriction
1 anchoring prohibited
2 anchoring restricted
3 fishing prohibited
4 fishing restricted
5 trawling prohibited
6 trawling restricted
7 entry prohibited
8 entry restricted
9 dredging prohibited
10 dredging restricted
11 diving prohibited
12 diving restricted
13 no wake
14 area to be avoided
15 construction prohibited
16 discharging prohibited | S-101
17 discharging restricted | S-101
18 industrial or mineral exploration/development prohibited | S-101
19 industrial or mineral exploration/development restricted | S-101
20 drilling prohibited | S-101
21 drilling restricted | S-101
22 removal of historical artefacts prohibited | S-101
23 cargo transhipment (lightening) prohibited | S-101
24 dragging prohibited | S-101
25 stopping prohibited | S-101
26 landing prohibited | S-101
27 speed restricted | S-101
39 swimming prohibited | S-101
42 power-driven vessels prohibited | S-101
# CATREA | L | Category of restricted area
1 offshore safety zone
4 nature reserve
5 bird sanctuary
6 game preserve
7 seal sanctuary
8 degaussing range
9 military area
10 historic wreck area
12 navigational aid safety zone
14 minefield
18 swimming area
19 waiting area
20 research area
21 dredging area
22 fish sanctuary
23 ecological reserve
24 no wake area
25 swinging area
27 environmentally sensitive sea area | S-101
28 particularly sensitive sea area | S-101
29 disengagement area | S-101
30 port security area | S-101
31 coral sanctuary | S-101
32 recreation area | S-101
# CATACH | L | Category of anchorage
1 unrestricted anchorage
2 deep water anchorage
3 tanker anchorage
4 explosives anchorage
5 quarantine anchorage
6 sea-plane anchorage
7 small craft anchorage
8 small craft mooring area
9 anchorage for periods up to 24 hours
10 anchorage for a limited period of time | S-101
14 waiting anchorage | S-101
15 reported anchorage | S-101
# CATOBS | E | Category of obstruction
1 snag / stump
2 wellhead
3 diffuser
4 crib
5 fish haven
6 foul area
7 foul ground
8 ice boom
9 ground tackle
10 boom | S-101
12 wave energy device | S-101
13 subsurface ocean data acquisition system | S-101
14 artificial reef | S-101
15 template | S-101
16 manifold | S-101
17 submerged pingo | S-101
18 remains of platform | S-101
19 scientific instrument | S-101
20 underwater turbine | S-101
21 active submarine volcano | S-101
22 shark net | S-101
23 mangrove | S-101
# CATWRK | E | Category of wreck
1 non-dangerous wreck
2 dangerous wreck
3 distributed remains of wreck
4 wreck showing mast/masts
5 wreck showing any portion of hull or superstructure
# CATCBL | E | Category of cable
1 power line
3 transmission line
4 telephone
5 telegraph
6 mooring cable/chain
7 ferry | S-101
9 junction cable | S-101
10 telecommunications cable | S-101
# CATPIP | L | Category of pipeline / pipe
2 outfall pipe
3 intake pipe
4 sewer
5 bubbler system
6 supply pipe
7 bubble curtain | S-101
# CATDPG | L | Category of dumping ground
2 chemical waste dumping ground
3 nuclear waste dumping ground
4 explosives dumping ground
5 spoil ground
6 vessel dumping ground
# STATUS | L | Status
1 permanent
2 occasional
3 recommended
4 disused
5 periodically/intermittent
6 reserved
7 temporary
8 private
9 mandatory
11 extinguished
12 illuminated
13 historic
14 public
15 synchronized
16 watched
17 un-watched
18 existence doubtful
28 buoyed | S-101
# CATMFA | E | Category of marine farm/culture
1 crustaceans
2 oyster/mussels
3 fish
4 seaweed
5 pearl culture farm | S-101
# CATFIF | E | Category of fishing  facility
1 fishing stake
2 fish trap
3 fish weir
4 tunny net
# CATMPA | L | Category of military practice area
2 torpedo exercise area
3 submarine exercise area
4 firing danger area
5 mine-laying practice area
6 small arms firing range
# CATMOR | E | Category of mooring/warping facility
1 dolphin
2 deviation dolphin
3 bollard
4 tie-up wall
5 post or pile
6 chain/wire/cable
7 mooring buoy
# CATSLC | E | Category of shoreline construction
1 breakwater
2 groyne (groin)
3 mole
4 pier ( jetty)
5 promenadepier
6 wharf (quay)
7 training wall
8 rip rap
9 revetment
10 sea wall
11 landing steps
12 ramp
13 slipway
14 fender
15 solid face wharf
16 open face wharf
17 log ramp | S-101
20 swimming facility | S-101
22 quay | S-101
23 tie-up wall | S-101
`;
