import { useState } from 'react';

export const planted = useState;
