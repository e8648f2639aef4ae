/**
 * Where the numbers come from. `read`: the abstract, first page or an excerpt was read;
 * otherwise the citation and its figures are from memory.
 */
export const SOURCES = {
  practice: { cite: 'common practice, no source', read: false },
  judgement: { cite: 'judgement, no source', read: false },
  computed: { cite: 'computed from the inputs named', read: false },
  shelf: { cite: "the practice's own shelf", read: false },
  Aladag15: { cite: 'Aladag A et al. J Prosthodont 2015;24:136-145', read: true },
  Angkasith16: {
    cite: 'Angkasith P, Burgess JO, Bottino MC, Lawson NC. J Prosthodont 2016;25:375-379',
    read: true,
  },
  BLT16: { cite: 'Oper Dent 2016;41:531-540', read: true },
  Blatz16: {
    cite: 'Blatz MB, Alvarez M, Sawyer K, Brindis M. Compend Contin Educ Dent 2016;37(9):611-618',
    read: true,
  },
  BMC22: { cite: 'BMC Oral Health 2022, doi 10.1186/s12903-022-02223-0', read: true },
  Bleach11: { cite: 'PMC3198552 (journal and year not noted)', read: true },
  Bollen97: { cite: 'Bollen CM et al. Dent Mater 1997;13:258-269', read: false },
  BOR15: { cite: 'Braz Oral Res 2015, S1806-83242015000100257', read: true },
  BOR19: { cite: 'Braz Oral Res 2019, S1806-83242019000100231', read: true },
  BOR20: { cite: 'Braz Oral Res 2020, S1806-83242020000100217', read: true },
  Burkhardt: {
    cite: 'Burkhardt F et al., titanium bases and saliva, Univ. Geneva archive, about 2021',
    read: true,
  },
  Bottino15: { cite: 'Bottino MA et al. Oper Dent 2015;40:E40-E46', read: true },
  DeMunck04: { cite: 'De Munck J et al. Dent Mater 2004;20:963-971', read: false },
  Ferraz18: { cite: 'Ferraz LN et al. JSM Dent 2018;6:1105', read: true },
  Feitosa15: { cite: 'Feitosa SA et al. Oper Dent 2015;40:163-171', read: true },
  Gonzaga19: {
    cite: 'Gonzaga LH, Arora H, Martin WC. Stoma Edu J 2019;6:18-23',
    read: true,
  },
  Goodacre01: { cite: 'Goodacre CJ et al. J Prosthet Dent 2001;85:363-376', read: true },
  Goodacre03: { cite: 'Goodacre CJ et al. J Prosthet Dent 2003;90:31-41', read: true },
  GS1: { cite: 'GS1 General Specifications', read: true },
  Hummel04: { cite: 'Hummel M, Kern M. Dent Mater 2004;20:498-508', read: true },
  IADR13: { cite: 'Strassler and Felix, IADR 2013, abstract 684', read: true },
  Inokoshi14: {
    cite: 'Inokoshi M, De Munck J, Minakuchi S, Van Meerbeek B. J Dent Res 2014;93:329-334',
    read: true,
  },
  HFM19: { cite: 'Head Face Med 2019, doi 10.1186/s13005-019-0206-8', read: true },
  ISO3950: { cite: 'ISO 3950', read: false },
  ISO4049: { cite: 'ISO 4049:2019', read: false },
  ISO6872: { cite: 'ISO 6872:2015, Table 1', read: false },
  'ISO9917-1': { cite: 'ISO 9917-1:2007', read: false },
  'ISO9917-2': { cite: 'ISO 9917-2:2017', read: false },
  Jung12: {
    cite: 'Clin Oral Implants Res 2012;23 Suppl 6:2-21',
    read: false,
  },
  ISO22674: { cite: 'ISO 22674 (from a secondary page)', read: true },
  JDSR24: { cite: 'Jpn Dent Sci Rev 2024;60:198-210', read: true },
  Kern98: {
    cite: 'Kern M, Wegner SM. Dent Mater 1998;14:64-71',
    read: false,
  },
  Kim15: {
    cite: 'Kim DH, Son JS, Jeong SH, Kim YK, Kim KH, Kwon TY. J Adv Prosthodont 2015;7:85-92',
    read: true,
  },
  Klosa09: {
    cite: 'Klosa K, Wolfart S, Lehmann F, Wenz HJ, Kern M. J Adhes Dent 2009;11:127-135',
    read: true,
  },
  Kuphasuk07: { cite: 'Kuphasuk W et al. Oper Dent 2007;32:399 ff', read: true },
  Levartovsky20: {
    cite: 'Materials 2020;13:3998',
    read: true,
  },
  Jorgensen55: { cite: 'Joergensen KD. Acta Odontol Scand 1955;13:35-40', read: false },
  Juloski12: { cite: 'Juloski J et al. J Endod 2012;38:11-19', read: false },
  Kious09: {
    cite: 'Kious AR, Roberts HW, Brackett WW. J Prosthet Dent 2009;101:189-192',
    read: true,
  },
  Leevailoj98: { cite: 'Leevailoj C et al. J Prosthet Dent 1998;80:699-707', read: false },
  Magne05: { cite: 'Magne P et al. J Prosthet Dent 2005;94:511-519', read: false },
  Namburajan25: { cite: 'Cureus 2025, doi 10.7759/cureus.95030', read: true },
  NIOM: { cite: 'NIOM note on curing lights', read: true },
  McLean71: { cite: 'McLean JW, von Fraunhofer JA. Br Dent J 1971;131:107-111', read: false },
  Pacheco19: { cite: 'J Prosthodont Res 2019;63:232-238', read: true },
  Parker88: { cite: 'Parker MH et al. J Prosthet Dent 1988;59:281-288', read: false },
  PLV21: {
    cite: 'J Clin Med 2021;10:1074',
    read: true,
  },
  Parker04: { cite: 'Parker MH. Dent Clin North Am 2004;48:387-396', read: true },
  Pulp19: { cite: 'J Appl Oral Sci 2019, S1678-77572019000100448', read: true },
  Quaas07: { cite: 'Quaas AC, Yang B, Kern M. Dent Mater 2007;23:506-512', read: true },
  Sailer15: {
    cite: 'Sailer I et al. Dent Mater 2015;31:603-623',
    read: true,
  },
  Sanares01: { cite: 'Sanares AME et al. Dent Mater 2001;17:542-556', read: false },
  Student21: {
    cite: 'PMC8227166, survival of crowns of a student clinic, 2021',
    read: true,
  },
  Tay03: { cite: 'Tay FR et al. J Adhes Dent 2003;5:27-40', read: false },
  Vrochari09: {
    cite: 'Vrochari AD, Eliades G, Hellwig E, Wrbas KT. Dent Mater 2009;25:1104-1108',
    read: true,
  },
  Wilson09: { cite: 'Wilson TG. J Periodontol 2009;80:1388-1392', read: true },
  Wilson94: { cite: 'Wilson AH, Chan DC. J Prosthodont 1994;3:74-78', read: true },
  WT15: { cite: 'Oper Dent 2015;40:E222-E229', read: true },
  Yang08: {
    cite: 'Yang B, Lange-Jansen HC, Scharnberg M, Wolfart S, Ludwig K, Adelung R, Kern M. Dent Mater 2008;24:508-513',
    read: true,
  },
  Yun13: { cite: 'Yun JH et al. J Korean Acad Prosthodont 2013;51:99-106', read: true },
  Zach65: {
    cite: 'Zach L, Cohen G. Oral Surg Oral Med Oral Pathol 1965;19:515-530',
    read: false,
  },
  ZAbr21: { cite: 'Kim HK, Ahn B. Materials 2021;14:610', read: true },
} as const satisfies Readonly<Record<string, { cite: string; read: boolean }>>;
export type SourceKey = keyof typeof SOURCES;
