/**
 * Where the numbers come from. `read`: the abstract, first page or an excerpt was read;
 * otherwise the citation and its figures are from memory.
 */
export const SOURCES = {
  practice: { cite: 'common practice, no source', read: false },
  judgement: { cite: 'judgement, no source', read: false },
  computed: { cite: 'computed from the inputs named', read: false },
  Aladag15: { cite: 'Aladag A et al. J Prosthodont 2015;24:136-145', read: true },
  Angkasith16: {
    cite: 'Angkasith P, Burgess JO, Bottino MC, Lawson NC. J Prosthodont 2016;25:375-379',
    read: true,
  },
  BOR15: { cite: 'Braz Oral Res 2015, S1806-83242015000100257', read: true },
  BOR19: { cite: 'Braz Oral Res 2019, S1806-83242019000100231', read: true },
  Bottino15: { cite: 'Bottino MA et al. Oper Dent 2015;40:E40-E46', read: true },
  DeMunck04: { cite: 'De Munck J et al. Dent Mater 2004;20:963-971', read: false },
  Feitosa15: { cite: 'Feitosa SA et al. Oper Dent 2015;40:163-171', read: true },
  Gonzaga19: {
    cite: 'Gonzaga LH, Arora H, Martin WC. Stoma Edu J 2019;6:18-23',
    read: true,
  },
  Goodacre01: { cite: 'Goodacre CJ et al. J Prosthet Dent 2001;85:363-376', read: true },
  HFM19: { cite: 'Head Face Med 2019, doi 10.1186/s13005-019-0206-8', read: true },
  ISO3950: { cite: 'ISO 3950', read: false },
  ISO4049: { cite: 'ISO 4049:2019', read: false },
  ISO6872: { cite: 'ISO 6872:2015, Table 1', read: false },
  'ISO9917-2': { cite: 'ISO 9917-2:2017', read: false },
  JDSR24: { cite: 'Jpn Dent Sci Rev 2024;60:198-210', read: true },
  Kim15: {
    cite: 'Kim DH, Son JS, Jeong SH, Kim YK, Kim KH, Kwon TY. J Adv Prosthodont 2015;7:85-92',
    read: true,
  },
  Klosa09: {
    cite: 'Klosa K, Wolfart S, Lehmann F, Wenz HJ, Kern M. J Adhes Dent 2009;11:127-135',
    read: true,
  },
  Kuphasuk07: { cite: 'Kuphasuk W et al. Oper Dent 2007;32:399 ff', read: true },
  McLean71: { cite: 'McLean JW, von Fraunhofer JA. Br Dent J 1971;131:107-111', read: false },
  Pacheco19: { cite: 'J Prosthodont Res 2019;63:232-238', read: true },
  Parker88: { cite: 'Parker MH et al. J Prosthet Dent 1988;59:281-288', read: false },
  Quaas07: { cite: 'Quaas AC, Yang B, Kern M. Dent Mater 2007;23:506-512', read: true },
  Sanares01: { cite: 'Sanares AME et al. Dent Mater 2001;17:542-556', read: false },
  Vrochari09: {
    cite: 'Vrochari AD, Eliades G, Hellwig E, Wrbas KT. Dent Mater 2009;25:1104-1108',
    read: true,
  },
  Yang08: {
    cite: 'Yang B, Lange-Jansen HC, Scharnberg M, Wolfart S, Ludwig K, Adelung R, Kern M. Dent Mater 2008;24:508-513',
    read: true,
  },
  Zach65: {
    cite: 'Zach L, Cohen G. Oral Surg Oral Med Oral Pathol 1965;19:515-530',
    read: false,
  },
  ZAbr21: { cite: 'Kim HK, Ahn B. Materials 2021;14:610', read: true },
} as const satisfies Readonly<Record<string, { cite: string; read: boolean }>>;
export type SourceKey = keyof typeof SOURCES;
